"""Every text of the program stands in every translation, finished, and the files are up to date."""

import re
from functools import cache

import pytest
from PySide6.QtCore import QTranslator

from tests.make_translations import CONTEXT, FOLDER, gathered, messages_of, translations

FILES = sorted(FOLDER.glob("*.ts"))
PLACE = re.compile(r"\{[^}]*\}")


@pytest.fixture(params=FILES, ids=[path.stem for path in FILES])
def translation(request):
    return request.param, translations(request.param)


all_texts = cache(gathered)
"""To look through all of the code takes a second."""


def test_there_is_a_second_language():
    assert [path.stem for path in FILES] == ["gloaming_de"]


def test_every_text_is_translated(translation):
    path, found = translation
    missing = [text for text, meaning in all_texts() if (text, meaning) not in found]
    assert not missing, (
        f"{path.name} lacks {missing}: python -m tests.make_translations writes them there as "
        "unfinished; fill them in and run it again"
    )


def test_nothing_is_kept_that_the_program_no_longer_says(translation):
    _, found = translation
    assert not set(found) - set(all_texts())


def test_placeholders_are_kept(translation):
    """Not one is lost, and none invented, which would fail only when it is shown."""
    _, found = translation
    for (source, _), text in found.items():
        assert sorted(PLACE.findall(source)) == sorted(PLACE.findall(text)), source


def test_no_letter_is_underlined_that_the_source_does_not_ask_for(translation):
    _, found = translation
    for (source, _), text in found.items():
        asked = bool(re.search(r"&[A-Za-z]", source))
        assert bool(re.search(r"&[A-Za-zÄÖÜäöü]", text)) == asked, source


def test_blanks_at_both_ends_and_what_follows_a_sentence_are_kept(translation):
    _, found = translation
    for (source, _), text in found.items():
        assert source[:1].isspace() == text[:1].isspace(), source
        assert source[-1:].isspace() == text[-1:].isspace(), source
        assert source.endswith("…") == text.endswith("…"), source
        assert text.strip() == "" or not re.search(r"  ", text) or "  " in source, source


def test_an_ellipsis_at_the_end_stands_at_its_word_everywhere(translation):
    """After a blank it would begin a line of its own, and buttons side by side would differ."""
    _, found = translation
    apart = re.compile(r"\s…$")
    said = [text for (source, _), shown in found.items() for text in (source, shown)]
    assert [text for text in said if apart.search(text)] == []


def test_what_the_program_loads_is_what_the_translators_wrote(translation, qapp):
    path, found = translation
    loaded = QTranslator()
    assert loaded.load(str(path.with_suffix(".qm")))
    for (source, meaning), text in found.items():
        assert loaded.translate(CONTEXT, source, meaning or None) == text, source


def test_marked_texts_are_found_in_a_source():
    source = '''
say("One {n}", n=tr("Two"))
tr("Light", "theme")
texts({"key": "Three", "other": ("Four", 5)})
quantity(1.0, "Five", "F", 0, 1, "Six")
choice(None, "Seven", "Eight")
say("Nine" if word == "no text" else variable if other else "Ten")
other("no text", say(variable))
'''
    assert set(messages_of(source)) == {
        ("One {n}", ""), ("Two", ""), ("Light", "theme"), ("Three", ""), ("Four", ""),
        ("Five", ""), ("Six", ""), ("Seven", ""), ("Eight", ""), ("Nine", ""), ("Ten", ""),
    }
