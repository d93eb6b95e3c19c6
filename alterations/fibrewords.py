"""How fibres are called in the reader's language, and by which German names they may be typed.

Names that only the US list has are shown as they are: no other language has a name for them.
"""

from alterations.saying import gettext as _
from alterations.saying import gettext_noop

# The names of the EU list (Regulation (EU) No 1007/2011, Annex I), stored in English.
_NAMES = frozenset(
    (
        gettext_noop("wool"),
        gettext_noop("alpaca"),
        gettext_noop("llama"),
        gettext_noop("camel"),
        gettext_noop("cashmere"),
        gettext_noop("mohair"),
        gettext_noop("angora"),
        gettext_noop("vicuña"),
        gettext_noop("yak"),
        gettext_noop("guanaco"),
        gettext_noop("cashgora"),
        gettext_noop("beaver"),
        gettext_noop("otter"),
        gettext_noop("animal hair"),
        gettext_noop("silk"),
        gettext_noop("cotton"),
        gettext_noop("kapok"),
        gettext_noop("jute"),
        gettext_noop("abaca"),
        gettext_noop("alfa"),
        gettext_noop("coir"),
        gettext_noop("broom"),
        gettext_noop("ramie"),
        gettext_noop("sisal"),
        gettext_noop("sunn"),
        gettext_noop("henequen"),
        gettext_noop("maguey"),
        gettext_noop("flax"),
        gettext_noop("true hemp"),
        gettext_noop("acetate"),
        gettext_noop("alginate"),
        gettext_noop("cupro"),
        gettext_noop("modal"),
        gettext_noop("protein"),
        gettext_noop("triacetate"),
        gettext_noop("viscose"),
        gettext_noop("acrylic"),
        gettext_noop("polyamide"),
        gettext_noop("lyocell"),
        gettext_noop("polylactide"),
        gettext_noop("elastodiene"),
        gettext_noop("elastane"),
        gettext_noop("glass fibre"),
        gettext_noop("chlorofibre"),
        gettext_noop("fluorofibre"),
        gettext_noop("modacrylic"),
        gettext_noop("aramid"),
        gettext_noop("polyimide"),
        gettext_noop("polyester"),
        gettext_noop("polyethylene"),
        gettext_noop("polypropylene"),
        gettext_noop("polycarbamide"),
        gettext_noop("polyurethane"),
        gettext_noop("vinylal"),
        gettext_noop("trivinyl"),
        gettext_noop("elastomultiester"),
        gettext_noop("elastolefin"),
        gettext_noop("melamine"),
        gettext_noop("polypropylene/polyamide bicomponent"),
        gettext_noop("polyacrylate"),
        gettext_noop("metallic"),
    )
)

# The same regulation's German names, with the words on ball bands, by the name used here; those
# after the first are from memory, unverified.
GERMAN: dict[str, tuple[str, ...]] = {
    "wool": ("wolle",),
    "alpaca": ("alpaka",),
    "llama": ("lama",),
    "camel": ("kamel", "kamelhaar"),
    "cashmere": ("kaschmir",),
    "angora": ("angorawolle",),
    "vicuña": ("vikunja",),
    "animal hair": ("tierhaar", "haar", "rosshaar"),
    "silk": ("seide",),
    "cotton": ("baumwolle",),
    "flax": ("flachs", "leinen"),
    "true hemp": ("hanf",),
    "acetate": ("acetat",),
    "triacetate": ("triacetat",),
    "viscose": ("viskose", "bambus", "bambusviskose"),
    "acrylic": ("polyacryl", "acryl"),
    "modacrylic": ("modacryl",),
    "polyamide": ("polyamid",),
    "polylactide": ("polylactid",),
    "elastodiene": ("elastodien", "gummi", "naturkautschuk"),
    "elastane": ("elasthan",),
    "glass fibre": ("glasfaser",),
    "polyethylene": ("polyethylen",),
    "polypropylene": ("polypropylen",),
    "polyurethane": ("polyurethan",),
    "metallic": ("metall", "metallfaser"),
}
GERMAN_VARIETIES: dict[str, str] = {
    "merinowolle": "wool",
    "schurwolle": "wool",
    "lammwolle": "wool",
    "shetlandwolle": "wool",
    "bio-baumwolle": "cotton",
    "babyalpaka": "alpaca",
    "maulbeerseide": "silk",
}


def fibre_in_words(name: str) -> str:
    """A fibre's name as it is shown.

    >>> fibre_in_words("cotton")
    'cotton'
    """
    return _(name) if name in _NAMES else name
