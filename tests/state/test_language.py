"""The language on show: whole sentences, decimal marks, and nothing lost below it."""

import pytest
from PySide6.QtCore import QLocale

from explorer.advice.case import Case
from explorer.advice.judge import judge
from explorer.advice.verdict import CHECK_LABELS, CHECK_WORDS
from explorer.files.scenario_json import load_scenario
from explorer.quantity import parse, show
from explorer.resource_files import scenario_folder
from explorer.scenario.guide.answers import Answers
from explorer.scenario.guide.assumptions import assumptions
from explorer.scenario.model import Scenario, with_value
from explorer.state import language
from explorer.state.language import of_system, set_language, tr
from explorer.text import Text, altered, capitalised, figure, joined, listed, rendered, say, texts
from explorer.words.light_log import log_sentences
from explorer.words.remedies import cost_text


@pytest.fixture
def german(qapp):
    set_language("de")
    yield
    set_language("en")


def test_english_is_shown_as_it_is_said(qapp):
    assert tr("Save") == "Save"
    assert tr("{n} panels", n=3) == "3 panels"
    assert type(tr(say("Marginal"))) is str


def test_german_has_its_own_words_and_a_decimal_comma(german):
    assert tr("Marginal") == "Knapp"
    assert tr(show(0.0047, "F")) == "4,7 mF"
    assert language.language() == "de"


def test_a_check_within_a_sentence_has_its_own_word_and_not_an_everyday_one(german):
    """“dark” is “dunkel” elsewhere, and “starts” a line of the trace."""
    for name, label in CHECK_LABELS.items():
        assert CHECK_WORDS[name] == label.lower()
        assert tr(CHECK_WORDS[name]) == tr(label)
    before, after = (
        judge(Case(with_value(Scenario(), "light.illuminance_lx", lux))) for lux in (900.0, 300.0)
    )
    told = tr(cost_text(before, after))
    assert "sinkt auf" in told
    assert not {"gestartet", "dunkel"} & set(told.split())


def test_how_long_a_battery_lasts_is_said_within_a_german_sentence(german):
    """As its button says it, it would stand there with a capital: "reicht ihm Ein Jahr"."""
    for lasts, said in (("year", "ein Jahr"), ("month", "einen Monat")):
        lines = assumptions(Answers(job="other", lasts=lasts))
        assert any(f"reicht ihm {said}." in tr(line) for line in lines)


def test_of_three_that_are_named_an_and_stands_before_the_last_alone(german):
    three = listed(CHECK_WORDS[name] for name in ("balance", "pulse", "service"))
    assert three == "balance, pulse and service"
    assert tr(three) == "Bilanz, Puls und Ausführung"
    assert listed(()) == ""


def test_what_is_said_in_one_language_can_be_shown_in_another(qapp):
    """A worker's sentence may be older than the choice of a language."""
    said = say("Marginal")
    assert tr(said) == "Marginal"
    set_language("de")
    try:
        assert said == "Marginal"
        assert tr(said) == "Knapp"
    finally:
        set_language("en")
    assert tr(said) == "Marginal"


def test_a_damaged_translation_leaves_the_program_in_english(
    qapp, tmp_path, monkeypatch, caplog
):
    (tmp_path / "gloaming_de.qm").write_bytes(b"moss")
    monkeypatch.setattr(language, "resource_path", lambda *parts: tmp_path / parts[-1])
    assert set_language("de") == "en"
    assert "gloaming_de.qm" in caplog.text
    assert tr(show(0.0047, "F")) == "4.7 mF"


def test_a_text_that_nobody_translated_stays_english(german):
    assert tr(say("A sentence that is in no catalogue.")) == "A sentence that is in no catalogue."


def test_what_a_user_typed_is_never_translated(german):
    assert tr(say("{label}: {value}", label="Marginal", value=figure("1.5"))) == "Marginal: 1,5"


def test_a_number_shown_in_german_is_read_as_the_same_number(german):
    for value in (0.0047, 1.25, 3.3e-6, 2500.0):
        assert parse(tr(show(value, "F")), "F") == pytest.approx(value)


def test_the_dialogs_of_qt_speak_german_too(german, qapp):
    assert qapp.translate("QPlatformTheme", "Cancel") == "Abbrechen"


@pytest.mark.parametrize(
    ("names", "code"),
    [
        (["de-AT", "en"], "de"),
        (["fr-FR", "de-CH"], "de"),
        (["en-GB", "de"], "en"),
        (["fr-FR"], "en"),
        (["C"], "en"),
    ],
)
def test_the_system_decides_by_its_first_language_that_there_is(monkeypatch, names, code):
    class Place:
        def uiLanguages(self):
            return names

    monkeypatch.setattr(QLocale, "system", staticmethod(Place))
    assert of_system() == code


# -- Text -----------------------------------------------------------------------------------------


def small(template, _):
    """A language of two entries."""
    return {"Runs": "Läuft", "runs": "läuft", "{a} and {b}": "{b} und {a}"}.get(template, template)


def in_small(text):
    return rendered(text, small, ",")


def test_values_may_change_places():
    assert in_small(say("{a} and {b}", a=say("Runs"), b=figure("2.5"))) == "2,5 und Läuft"


def test_adding_and_joining_keep_every_part():
    both = "(" + say("Runs") + ")" + figure("0.5")
    assert both == "(Runs)0.5"
    assert in_small(both) == "(Läuft)0,5"
    assert in_small(joined(", ", [say("Runs"), "Runs"])) == "Läuft, Runs"


def test_small_letters_are_an_entry_of_their_own_or_left_alone():
    assert in_small(say("Runs").lower()) == "läuft"
    assert say("Dark stretch").lower() == "dark stretch"
    assert in_small(say("Dark stretch").lower()) == "Dark stretch"


def test_letters_are_changed_in_the_language_that_is_shown():
    assert in_small(capitalised(say("runs"))) == "Läuft"
    assert in_small(altered(say("Runs"), str.upper)) == "LÄUFT"


def test_a_table_keeps_its_keys_and_marks_its_values():
    table = texts({"runs": ("Runs", 3), "other": ["Runs"]})
    assert list(table) == ["runs", "other"]
    assert isinstance(table["runs"][0], Text)
    assert in_small(table["other"][0]) == "Läuft"
    assert table["runs"][1] == 3


def test_an_error_keeps_its_text():
    assert in_small(str(ValueError(say("Runs")))) == "Läuft"


def test_dates_of_a_year_are_said_in_words(german):
    path = scenario_folder() / "window_air_sensor.json"
    said = " ".join(tr(line) for line in log_sentences(Case(load_scenario(path).scenario)))
    assert "am 12. Oktober um 11:30" in said
    assert "Am 21. Juni steht die Sonne um 13:26 am höchsten" in said
    assert "06-21" not in said
