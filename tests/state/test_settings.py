import os
import subprocess
import sys
from pathlib import Path

import pytest

from explorer.state.settings import RECENT_KEPT, Settings, SettingsStore


def test_what_is_written_is_read_again(tmp_path):
    place = tmp_path / "deep" / "settings.ini"
    first = SettingsStore(place)
    first.update(theme="dark", language="de", scale_percent=150, geometry=b"\x00\x01\xff")
    first.remember_file(tmp_path / "one.json")
    assert SettingsStore(place).settings == first.settings
    assert SettingsStore(place).settings.recent == (str(tmp_path / "one.json"),)


def test_a_first_start_has_defaults_and_writes_nothing(tmp_path):
    place = tmp_path / "settings.ini"
    assert SettingsStore(place).settings == Settings()
    assert not place.exists()


def test_the_newest_file_comes_first_and_once(tmp_path):
    store = SettingsStore(tmp_path / "settings.ini")
    for name in ("a.json", "b.json", "a.json"):
        store.remember_file(tmp_path / name)
    assert [Path(p).name for p in store.settings.recent] == ["a.json", "b.json"]
    assert store.settings.folder == str(tmp_path.resolve())


def test_a_file_named_from_the_folder_one_was_in_is_found_from_any_other(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    store = SettingsStore(tmp_path / "settings.ini")
    store.remember_file(Path("a.json"))
    assert store.settings.recent == (str(tmp_path / "a.json"),)


def test_only_some_recent_files_are_kept(tmp_path):
    store = SettingsStore(tmp_path / "settings.ini")
    for number in range(RECENT_KEPT + 5):
        store.remember_file(tmp_path / f"{number}.json")
    assert len(SettingsStore(tmp_path / "settings.ini").settings.recent) == RECENT_KEPT


def test_a_bad_value_falls_back_and_the_others_stay(tmp_path, caplog):
    place = tmp_path / "settings.ini"
    place.write_text(
        "[General]\nschema=1\ntheme=mauve\nlanguage=elvish\nscale_percent=huge\nfolder=/fern\n",
        encoding="utf-8",
    )
    settings = SettingsStore(place).settings
    assert (settings.theme, settings.scale_percent, settings.folder) == ("system", 0, "/fern")
    assert settings.language == "system"
    assert "mauve" in caplog.text
    assert "elvish" in caplog.text
    assert "huge" in caplog.text


@pytest.mark.parametrize(
    "text",
    [
        b"geometry=abc",
        b"geometry=@ByteArray(\\x1\\xd9)\nscale_percent=\xc2\xb2\ntour_seen=perhaps\nfolder=a, b",
        b"schema=\xc2\xb3\nrecent\\size=-4\nrecent\\1\\path=",
        b"recent\\size=4294967296999\nrecent\\1\\path=/fern",
        b"[[[\n=\n%%%\n;\\\n\xff\xfe",
        b"x" * 200_000,
    ],
)
def test_any_text_at_all_gives_settings(tmp_path, text):
    place = tmp_path / "settings.ini"
    place.write_bytes(b"[General]\n" + text)
    store = SettingsStore(place)
    assert store.settings.scale_percent == 0
    store.update(theme="dark")
    assert SettingsStore(place).settings.theme == "dark"


@pytest.mark.parametrize(
    "value",
    [
        b"@Variant(\\0\\0\\0\\x7f\\xff\\xff\\xff\\xff)",
        b"@DateTime(\\0\\0\\0\\x10\\xff)",
        b'"@Variant(\\0)"',
        b"a, @Rect(1 2 3 4)",
        b"\\x40Variant(\\0\\0)",
        b"\\x040Variant(\\0\\0)",
        b"\\100Variant(\\0\\0)",
    ],
)
def test_a_file_that_would_make_objects_is_put_aside_unread(tmp_path, value):
    place = tmp_path / "settings.ini"
    content = b"[General]\ntheme=dark\ngeometry=" + value
    place.write_bytes(content)
    store = SettingsStore(place)
    assert store.settings == Settings()
    assert "damaged" in store.faults[0]
    assert (tmp_path / "settings.damaged").read_bytes() == content
    store.update(theme="light")
    assert SettingsStore(place).settings.theme == "light"


def test_what_the_program_wrote_is_its_own_whatever_names_it_holds(tmp_path):
    place = tmp_path / "settings.ini"
    names = ["@Variant(x)", "@fern, @moss", 'q"uote', "grün\\x40", "[x]=@Rect(1)"]
    store = SettingsStore(place)
    for name in names:
        store.remember_file(tmp_path / name)
    store.update(geometry=bytes(range(256)))
    code = (
        "import sys; from pathlib import Path; from explorer.state.settings import SettingsStore\n"
        "s = SettingsStore(Path(sys.argv[1]))\n"
        "print(s.faults, [Path(p).name for p in s.settings.recent], s.settings.geometry)"
    )
    done = subprocess.run(  # another process, as Qt remembers what this one wrote
        [sys.executable, "-c", code, place], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == f"() {names[::-1]} {bytes(range(256))}"


@pytest.mark.parametrize("kind", ["folder", "pipe", "loop", "large"])
def test_what_is_no_settings_file_is_neither_opened_nor_written_over(tmp_path, kind):
    place = tmp_path / "settings.ini"
    if kind == "folder":
        place.mkdir()
    elif kind == "pipe":
        os.mkfifo(place)
    elif kind == "loop":
        place.symlink_to(place)
    else:
        with place.open("wb") as file:
            file.truncate(50_000_000)
    store = SettingsStore(place)
    store.update(theme="dark")
    assert store.settings.theme == "dark"
    heard = []
    store.listen(heard.append)
    assert len(heard) == 1


def test_settings_of_a_newer_version_are_left_alone(tmp_path, caplog):
    place = tmp_path / "settings.ini"
    place.write_text("[General]\nschema=99\ntheme=dark\n", encoding="utf-8")
    assert SettingsStore(place).settings == Settings()
    assert "newer version" in caplog.text
