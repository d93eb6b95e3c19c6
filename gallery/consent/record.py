"""A page of the ledger as a machine-readable consent record.

JSON-LD in the words of the Data Privacy Vocabulary (https://w3id.org/dpv#, version 2), following
its guide for ISO/IEC TS 27560:2023 (https://w3id.org/dpv/guides/consent-27560). It names nobody
but whoever runs the site; whose answers they are, the receipt around it says.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from gallery.consent.models import Agreement, ConsentText, Entry
from gallery.consent.purposes import QUESTIONS

CONTEXT = {
    "dpv": "https://w3id.org/dpv#",
    "dct": "http://purl.org/dc/terms/",
    "xsd": "http://www.w3.org/2001/XMLSchema#",
}
RECORD, RECEIPT = "record", "receipt"
SCHEMA = "https://w3id.org/dpv/schema/dpv-27560#"
STATUS = {
    Entry.Answer.GIVEN: "dpv:ConsentGiven",
    Entry.Answer.REFUSED: "dpv:ConsentRefused",
    Entry.Answer.WITHDRAWN: "dpv:ConsentWithdrawn",
}
# What of the sender each purpose uses, in words.
PERSONAL_DATA = {
    "film": "photos of the garment",
    "public_pages": "photos of the garment",
    "notes": "numbers and notes about the garment",
    "name": "the name as written by the sender",
}
Json = dict[str, Any]


@dataclass(frozen=True)
class Controller:
    """Whoever runs the site and whom people may write to."""

    name: str
    contact: str
    page: str


def record_of(agreement: Agreement, controller: Controller, kind: str = RECORD) -> Json:
    """The record (or receipt) of an agreement: each purpose with every answer, its words, its time
    and its way."""
    entries = list(agreement.entries.select_related("text").order_by("seq"))
    return {
        "@context": CONTEXT,
        "@id": f"urn:uuid:{agreement.uuid}",
        "@type": "dpv:ConsentRecord",
        "dct:identifier": str(agreement.uuid),
        "dct:conformsTo": {"@id": SCHEMA + kind},
        "dct:issued": _time(agreement.opened_at.isoformat()),
        "dpv:hasDataSubject": {"@type": "dpv:DataSubject", "dct:title": "the sender"},
        "dpv:hasDataController": {
            "@type": "dpv:DataController",
            "dpv:hasName": controller.name,
            "dpv:hasContact": controller.contact,
            "dpv:hasAddress": controller.page,
        },
        "dpv:hasNotice": [_notice(text) for text in _texts(entries)],
        "dpv:hasProcess": list(_processes(entries)),
    }


def _texts(entries: list[Entry]) -> list[ConsentText]:
    return list({entry.text_id: entry.text for entry in entries}.values())


def _notice(text: ConsentText) -> Json:
    """The words as they were shown, with their version and hash."""
    return {
        "@id": f"urn:sha256:{text.sha256}",
        "@type": "dpv:ConsentNotice",
        "dct:identifier": text.sha256,
        "dct:title": text.sentence,
        "dct:description": text.meaning,
        "dct:hasVersion": str(text.version),
        "dct:language": text.language,
    }


def _processes(entries: list[Entry]) -> Iterator[Json]:
    for question in QUESTIONS:
        answers = [entry for entry in entries if entry.purpose == question.purpose]
        yield {
            "@type": "dpv:Process",
            "dct:identifier": question.purpose,
            "dpv:hasPurpose": {"@type": "dpv:Purpose", "dct:title": str(question.label)},
            "dpv:hasLegalBasis": {"@id": "dpv:Consent"},
            "dpv:hasPersonalData": {
                "@type": "dpv:PersonalData",
                "dct:title": PERSONAL_DATA[question.purpose],
            },
            "dpv:hasConsentStatus": [_status(entry) for entry in answers],
        }


def _status(entry: Entry) -> Json:
    return {
        "@id": f"urn:uuid:{entry.uuid}",
        "@type": STATUS[Entry.Answer(entry.answer)],
        "dpv:isIndicatedBy": entry.get_actor_display(),
        "dpv:isIndicatedAtTime": _time(entry.at.isoformat()),
        "dpv:hasIndicationMethod": entry.get_way_display(),
        "dpv:hasNotice": {"@id": f"urn:sha256:{entry.text_sha256}"},
        "dct:identifier": str(entry.seq),
    }


def _time(iso: str) -> Json:
    return {"@type": "xsd:dateTime", "@value": iso}
