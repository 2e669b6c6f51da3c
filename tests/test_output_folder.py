"""The folder of results: whole or not at all, and never in place of somebody else's."""

import errno
import json
import os

import pytest

from kinematics.checks import InputError
from kinematics.result_texts import OF_A_CASE
from scenes.output_folder import folder_in_one_piece


def _fill(folder, text="x", more=()):
    names = [OF_A_CASE.file, "a.csv", *more]
    (folder / OF_A_CASE.file).write_text(json.dumps({"schema": OF_A_CASE.schema, "files": names}))
    (folder / "a.csv").write_text(text)


def _write(out, text="x"):
    with folder_in_one_piece(out) as folder:
        _fill(folder, text)


def test_the_folder_appears_at_the_end_and_alone(tmp_path):
    """Nothing stands at the final place before the block ends, and nothing beside it after."""
    out = tmp_path / "new" / "deep" / "out"
    with folder_in_one_piece(out) as folder:
        assert not out.exists()
        _fill(folder)
    assert {path.name for path in out.iterdir()} == {OF_A_CASE.file, "a.csv"}
    assert [path.name for path in out.parent.iterdir()] == ["out"]


def test_the_folder_has_the_permissions_of_any_new_folder(tmp_path):
    """Others may read it as the user's settings allow, not less."""
    (tmp_path / "plain").mkdir()
    _write(tmp_path / "out")
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_our_own_folder_is_replaced_whole(tmp_path):
    """A second run replaces the first, whose files do not linger."""
    out = tmp_path / "out"
    with folder_in_one_piece(out) as folder:
        _fill(folder, more=("old.html",))
        (folder / "old.html").write_text("old")
    _write(out, "second")
    assert (out / "a.csv").read_text() == "second"
    assert not (out / "old.html").exists()
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_an_empty_folder_is_used(tmp_path):
    """What holds nothing can be replaced."""
    (tmp_path / "out").mkdir()
    _write(tmp_path / "out")
    assert (tmp_path / "out" / "a.csv").exists()


@pytest.mark.parametrize(
    "content",
    [
        {"notes.txt": "mine"},
        {OF_A_CASE.file: "not json"},
        {OF_A_CASE.file: "[]"},
        {OF_A_CASE.file: json.dumps({"schema": "something else", "files": [OF_A_CASE.file]})},
        {OF_A_CASE.file: json.dumps({"schema": OF_A_CASE.schema})},
        {OF_A_CASE.file: "[" * 100_000},
    ],
)
def test_a_folder_that_is_not_ours_is_left_alone(tmp_path, content):
    """Without our own findings.json nothing is touched."""
    out = tmp_path / "out"
    out.mkdir()
    for name, text in content.items():
        (out / name).write_text(text)
    with pytest.raises(InputError, match="was not written by cuspway"), folder_in_one_piece(out):
        pytest.fail("the block must not begin")
    assert {path.name: path.read_text() for path in out.iterdir()} == content


def test_our_folder_with_a_foreign_file_is_left_alone(tmp_path):
    """A note that the user put beside our files is not deleted."""
    out = tmp_path / "out"
    _write(out)
    (out / "my notes.txt").write_text("keep me")
    with pytest.raises(InputError, match=r"holds my notes\.txt; replacing it would delete that"):
        _write(out, "second")
    assert (out / "my notes.txt").read_text() == "keep me"
    assert (out / "a.csv").read_text() == "x"


@pytest.mark.parametrize("stop", [KeyboardInterrupt, SystemExit, ZeroDivisionError])
def test_an_interrupted_run_leaves_everything_as_it_was(tmp_path, stop):
    """The earlier result stays, nothing half done and no new parent folder is left."""
    out = tmp_path / "out"
    _write(out, "first")
    for target in (out, tmp_path / "a" / "b"):
        with pytest.raises(stop), folder_in_one_piece(target) as folder:
            (folder / "a.csv").write_text("half")
            raise stop
    assert (out / "a.csv").read_text() == "first"
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_what_was_put_there_meanwhile_is_not_replaced(tmp_path):
    """A folder that somebody fills during the run is looked at again before the end."""
    out = tmp_path / "out"
    with pytest.raises(InputError, match="was not written by"), folder_in_one_piece(out) as folder:
        _fill(folder)
        out.mkdir()
        (out / "theirs").write_text("t")
    assert [path.name for path in out.iterdir()] == ["theirs"]
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_if_the_last_step_fails_the_earlier_result_comes_back(tmp_path, monkeypatch):
    """The old folder is moved aside first; a failing rename brings it back."""
    out = tmp_path / "out"
    _write(out, "first")
    rename = os.rename

    def refuse_new(source, target, **options):
        if os.path.basename(source) == "new":
            raise OSError(errno.ENOSPC, "No space left on device")
        rename(source, target, **options)

    monkeypatch.setattr(os, "rename", refuse_new)
    with pytest.raises(InputError, match="No space left on device"):
        _write(out, "second")
    assert (out / "a.csv").read_text() == "first"
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_link_to_our_folder_stays_a_link(tmp_path):
    """The folder behind a symbolic link is replaced, the link is kept."""
    _write(tmp_path / "real", "first")
    (tmp_path / "link").symlink_to(tmp_path / "real")
    _write(tmp_path / "link", "second")
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "real" / "a.csv").read_text() == "second"


def test_a_file_or_the_present_folder_is_refused(tmp_path, monkeypatch):
    """Neither a file nor the folder we run in can be replaced."""
    (tmp_path / "file").write_text("x")
    with pytest.raises(InputError, match="this is a file"):
        _write(tmp_path / "file")
    with pytest.raises(InputError, match=r"cannot be written.*give a folder you may write to"):
        _write(tmp_path / "file" / "below")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(InputError, match="runs inside this folder"):
        _write(tmp_path)
