"""Who is credited, inside a served JPEG: an XMP packet with fields of IPTC Photo Metadata 2025.1
and the PLUS vocabulary. Only where the name may be shown; else the file says nothing at all.

Plain: no Django. The packet stands in an APP1 segment (Adobe's XMP specification, part 3); it has
no x:xmpmeta round it, which that specification leaves free.
"""

import re
from dataclasses import dataclass
from xml.sax.saxutils import escape

_MARK = b"http://ns.adobe.com/xap/1.0/\x00"
_MOST = 65533 - len(_MARK)  # what one segment holds
_PLUS = "http://ns.useplus.org/ldf/vocab/"
NOBODY, LIMITED = f"{_PLUS}MR-NAP", f"{_PLUS}MR-LMR"
CREDIT_BESIDE = f"{_PLUS}CR-CAI"  # credit adjacent to the image
# What XML 1.0 cannot hold in any way.
_UNWRITABLE = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_PACKET = """<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:photoshop="http://ns.adobe.com/photoshop/1.0/"
 xmlns:Iptc4xmpCore="http://iptc.org/std/Iptc4xmpCore/1.0/xmlns/"
 xmlns:plus="http://ns.useplus.org/ldf/xmp/1.0/">
<dc:creator><rdf:Seq><rdf:li>{name}</rdf:li></rdf:Seq></dc:creator>
<photoshop:Credit>{name}</photoshop:Credit>
<Iptc4xmpCore:AltTextAccessibility><rdf:Alt><rdf:li xml:lang="x-default">{alt}</rdf:li></rdf:Alt>\
</Iptc4xmpCore:AltTextAccessibility>
<plus:ModelReleaseStatus>{release}</plus:ModelReleaseStatus>
<plus:CreditLineRequired>{required}</plus:CreditLineRequired>
</rdf:Description>
</rdf:RDF>
<?xpacket end="r"?>"""


@dataclass(frozen=True)
class PhotoFields:
    """The name exactly as it may be shown, the description, whether people can be recognised."""

    name: str
    alt: str
    shows_people: bool


def packet_of(fields: PhotoFields) -> bytes:
    """The XMP packet; empty where there is no name, or one that no packet can hold unchanged."""
    if not fields.name or _UNWRITABLE.search(fields.name + fields.alt):
        return b""
    packet = _PACKET.format(
        name=_text(fields.name),
        alt=_text(fields.alt),
        release=LIMITED if fields.shows_people else NOBODY,
        required=CREDIT_BESIDE,
    ).encode()
    return packet if len(packet) <= _MOST else b""


def _text(words: str) -> str:
    # A carriage return would be read as a line end unless it is written as a number.
    return escape(words, {"\r": "&#13;"})


def with_fields(jpeg: bytes, packet: bytes) -> bytes:
    """The JPEG with the packet behind its JFIF header; every other byte is as it was."""
    if not packet or jpeg[:2] != b"\xff\xd8":
        return jpeg
    at = 2
    if jpeg[2:4] == b"\xff\xe0":  # JFIF has to be the first
        at += 2 + int.from_bytes(jpeg[4:6], "big")
    length = 2 + len(_MARK) + len(packet)
    segment = b"\xff\xe1" + length.to_bytes(2, "big") + _MARK + packet
    return jpeg[:at] + segment + jpeg[at:]
