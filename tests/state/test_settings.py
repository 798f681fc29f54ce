from pathlib import Path

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
    assert (settings.theme, settings.scale_percent, settings.folder) == ("system", 100, "/fern")
    assert settings.language == "system"
    assert "mauve" in caplog.text
    assert "elvish" in caplog.text
    assert "huge" in caplog.text


def test_settings_of_a_newer_version_are_left_alone(tmp_path, caplog):
    place = tmp_path / "settings.ini"
    place.write_text("[General]\nschema=99\ntheme=dark\n", encoding="utf-8")
    assert SettingsStore(place).settings == Settings()
    assert "newer version" in caplog.text
