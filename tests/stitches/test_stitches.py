"""The stitch table against published lists; the source is named beside each check."""

import pytest

from hookside.pattern import Terms
from hookside.stitches import TABLE, by_name, named, stitch

# US abbreviation -> (uses, makes). Craft Yarn Council list as printed at sage-urban-homesteading.com and stitch4ever.com  # noqa: E501
# (2012); sc2tog, sc3tog, esc, fsc, rev sc: glossary of a published crochet book.
PUBLISHED = {
    "ch": (0, 0),
    "sl st": (1, 1),
    "sc": (1, 1),
    "hdc": (1, 1),
    "dc": (1, 1),
    "tr": (1, 1),
    "dtr": (1, 1),
    "trtr": (1, 1),
    "esc": (1, 1),
    "sc2tog": (2, 1),
    "sc3tog": (3, 1),
    "dc2tog": (2, 1),
    "dec": (2, 1),
    "inc": (1, 2),
    "FPdc": (1, 1),
    "BPdc": (1, 1),
    "FPsc": (1, 1),
    "FPtr": (1, 1),
    "fsc": (0, 1),
    "rev sc": (1, 1),
    "sk": (1, 0),
    "pc": (1, 1),
    "bo": (1, 1),
    "CL": (1, 1),
    "picot": (0, 0),
    "sh": (1, 5),
    "V-st": (1, 2),
    "inv dec": (2, 1),
    "MR": (0, 0),
}

# okeydokeys.com and the UK book abbreviation pages CB960 (2015), CB1616 (2023)
US_TO_UK = {
    "sc": "dc",
    "hdc": "htr",
    "dc": "tr",
    "tr": "dtr",
    "dtr": "trtr",
    "trtr": "quadtr",
    "sc2tog": "dc2tog",
    "hdc2tog": "htr2tog",
    "dc2tog": "tr2tog",
    "tr2tog": "dtr2tog",
    "sl st": "ss",
    "FPdc": "FPtr",
    "BPdc": "BPtr",
    "esc": "edc",
    "edc": "etr",
    "sk": "miss",
    "ch": "ch",
    "inc": "inc",
    "dec": "dec",
}


@pytest.mark.parametrize(("name", "arithmetic"), PUBLISHED.items())
def test_published_arithmetic(name: str, arithmetic: tuple[int, int]) -> None:
    found = named(name, "US")
    assert found is not None
    assert (found.uses, found.makes) == arithmetic


@pytest.mark.parametrize(("us", "uk"), US_TO_UK.items())
def test_uk_names(us: str, uk: str) -> None:
    assert named(us, "US") is named(uk, "UK")


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_translation_there_and_back(terms: Terms) -> None:
    for key, entry in TABLE.items():
        assert named(entry.abbreviation(terms), terms) is entry, key
        assert named(entry.name(terms), terms) is entry, key


@pytest.mark.parametrize("terms", ["US", "UK"])
def test_no_name_means_two_stitches(terms: Terms) -> None:
    claimed: dict[str, str] = {}
    for entry in TABLE.values():
        for name in entry.names(terms):
            plain = " ".join(name.lower().replace("-", " ").split())
            assert claimed.setdefault(plain, entry.key) == entry.key
    assert set(by_name(terms).values()) == set(TABLE)


# Turning chains: Crochet Guild of America lesson sheet 1997; dtr and trtr: crochetforall.com
@pytest.mark.parametrize(
    ("key", "chains"), [("sl st", 0), ("sc", 1), ("hdc", 2), ("dc", 3), ("tr", 4), ("dtr", 5), ("trtr", 6)]
)
def test_heights(key: str, chains: int) -> None:
    assert stitch(key).height == chains


def test_steps_follow_what_is_made() -> None:
    for entry in TABLE.values():
        if entry.key == "skip":
            assert entry.steps == 0
        elif entry.key != "v-st":  # its chain in the middle is a step that makes nothing
            assert entry.steps == max(1, entry.makes), entry.key
        assert entry.of in TABLE
        assert entry.sources
