from pathlib import Path

from explorer.files.whereabouts import found_again, names_apart


def test_one_name_is_enough_where_no_other_file_bears_it():
    assert names_apart(["/a/one.json", "/b/two.json"]) == ("one.json", "two.json")
    assert names_apart(["/a/x/one.json", "/b/x/one.json"]) == ("a/x/one.json", "b/x/one.json")


def test_a_file_is_found_where_its_folder_went(tmp_path):
    old, new = tmp_path / "old" / "fern", tmp_path / "new" / "fern"
    new.mkdir(parents=True)
    (new / "lock.json").touch()
    assert found_again(old / "lock.json", [new]) == new / "lock.json"
    assert found_again(old / "lock.json", [new / "deeper"]) == new / "lock.json"
    assert found_again(new / "lock.json", []) == new / "lock.json"


def test_a_file_that_is_nowhere_stays_where_it_was(tmp_path):
    gone = tmp_path / "gone.json"
    assert found_again(gone, [tmp_path, Path("/")]) == gone
