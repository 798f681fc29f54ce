"""The German help says what the English help says, with the same equations, numbers and sources."""

import json
import re
from collections import Counter

import pytest

from explorer.resource_files import resource_path
from tests.make_translations import FOLDER, translations

ENGLISH, GERMAN = (
    resource_path("help", name).read_text(encoding="utf-8")
    for name in ("model-note.md", "model-note.de.md")
)
REMARKS = {
    "300 to 1200 nm, 1 nm steps, trapezoid rule": "300 bis 1200 nm, Schritte von 1 nm, Trapezregel",
    "(what the load drops across the ESR)": "(was der Verbraucher am ESR abfallen lässt)",
    "P_fixed      and      I": "P_fixed      und      I",
    "f' of the cell": "f' der Masche",
    "slope of the current over the charge": "Steigung des Stroms über der Ladung",
    "minimise  Σ": "minimiere  Σ",
    "3 × noise": "3 × Rauschen",
}
"""The words that stand between the equations."""
MARKS = {
    "common practice, no source": "übliche praxis, ohne quelle",
    "from memory": "aus dem gedächtnis",
    "own judgement": "eigene einschätzung",
    "**expected error": "**erwarteter fehler",
    "left out": "nicht enthalten",
}
SOURCE = re.compile(
    r"10\.\d{4,}/\S*\w|CIE \d+:\d+|ASTM \S+|IEC \S+\d|IEEE [A-Z]\w+|Energies [\d()]+ \d+"
    r"|CC BY \S+\d|[A-Z]\w+ et al\.|\((?:19|20)\d\d\) \d+"
    r"|Driesse & Stein|Apostolou, Reinders, Verwaal|Bishop|Rieger|JEITA|SI (?:of|von) 2019"
    r"|pvlib|colour-science"
)


def headings(note: str) -> list[str]:
    """Level and number of every heading."""
    return re.findall(r"(?m)^#+(?: \d+\.)?", note)


def equations(note: str) -> list[str]:
    """The indented lines, in their order."""
    return re.findall(r"(?m)^ {4}.*$", note)


def paragraphs(note: str) -> list[str]:
    """Everything else, block by block."""
    blocks = re.split(r"\n\s*\n", note.strip())
    return [re.sub(r"\s+", " ", b) for b in blocks if not b.startswith("    ")]


def numbers(text: str) -> Counter[str]:
    """Every number, whichever decimal mark it has."""
    return Counter(n.replace(",", ".") for n in re.findall(r"\d+(?:[.,]\d+)*", text))


def symbols(text: str) -> Counter[str]:
    """Every word that belongs to an equation."""
    found = re.findall(r"\S*[_^=·×±≥<²³⁻₂\u2032\u2033τλ−/]\S*", text)
    ratios_of_words = re.compile(r"\w{5,}/\w{5,}")
    return Counter(
        word.strip(".,;:()*").replace(",", ".")
        for word in found
        if not ratios_of_words.fullmatch(word)
    )


def test_the_german_note_has_the_same_headings():
    assert headings(GERMAN) == headings(ENGLISH)


def test_the_german_note_has_the_same_equations():
    expected = "\n".join(equations(ENGLISH))
    for english, german in REMARKS.items():
        assert english in expected
        expected = expected.replace(english, german)
    assert "\n".join(equations(GERMAN)) == expected


def test_the_german_note_names_the_same_sources_in_the_same_order():
    english, german = (
        [re.sub("of|von", "", s) for s in SOURCE.findall(re.sub(r"\s+", " ", note))]
        for note in (ENGLISH, GERMAN)
    )
    assert german == english
    assert len(english) > 20


def test_the_german_note_has_as_many_paragraphs():
    assert len(paragraphs(GERMAN)) == len(paragraphs(ENGLISH))


@pytest.mark.parametrize(
    ("english", "german"),
    [
        pytest.param(*pair, id=f"paragraph {at}")
        for at, pair in enumerate(zip(paragraphs(ENGLISH), paragraphs(GERMAN), strict=False))
    ],
)
def test_a_german_paragraph_has_the_same_numbers_symbols_and_marks(english, german):
    assert numbers(german) == numbers(english)
    assert symbols(german) == symbols(english)
    assert german.count("**") == english.count("**")
    for mark, meant in MARKS.items():
        assert german.lower().count(meant) == english.lower().count(mark), mark


def test_the_german_note_has_decimal_commas_in_its_prose():
    prose = SOURCE.sub("", "\n".join(paragraphs(GERMAN)))
    points = set(re.findall(r"\S*\d\.\d\S*", prose))
    formula, sections = {"1.3^((V_rated", "V)/0.1"}, {"4.3.7),", "5.1);", "F.1.2.3):"}
    assert points == formula | sections, "one formula, and three sections of a guide"


def help_texts() -> list[str]:
    """Every text about a quantity."""
    data = json.loads(resource_path("help", "quantities.json").read_text(encoding="utf-8"))
    return list(dict.fromkeys(t for entry in data["quantities"].values() for t in entry.values()))


def test_every_help_text_is_translated():
    german = translations(FOLDER / "gloaming_de.ts")
    plain = {"1.", "12-24.", "01-06."}  # numbers and dates without a mark or a word
    assert [t for t in help_texts() if (t, "") not in german and t not in plain] == []


def test_the_translated_help_has_the_same_numbers():
    german = translations(FOLDER / "gloaming_de.ts")
    pairs = [(text, german[text, ""]) for text in help_texts() if (text, "") in german]
    assert [pair for pair in pairs if numbers(pair[0]) != numbers(pair[1])] == []
