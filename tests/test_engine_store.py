"""Stores of samples: whatever an earlier run left in a folder, every sample is there once."""

import json
import os
import tempfile
from itertools import pairwise
from pathlib import Path
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kinematics.checks import InputError
from kinematics.engine import job_folder, whole_files
from kinematics.engine.folder_store import FolderStore
from kinematics.engine.local_hands import LocalHands
from kinematics.engine.rows import arrow_table, packed
from kinematics.engine.run import run
from kinematics.engine.sample_files import path_of, write_merged, write_samples
from kinematics.engine.store import MemoryStore
from tests.fresh_python import run_python
from tests.made_studies import COLUMNS, bits, log_lines, plan, prepare, renamed, sample, silent

COUNT, BLOCK = 40, 8
HERE = LocalHands(1)


def write_file(folder, study, numbers, merged):
    """Write a file of the first job as a run would have."""
    job = study.jobs[0]
    prepared = prepare(job.subject)
    rows = [packed(sample(prepared, number), COLUMNS) for number in numbers]
    where = folder / "samples" / job.name
    where.mkdir(parents=True, exist_ok=True)
    if merged:
        write_merged(where, numbers, arrow_table(numbers, rows, COLUMNS), last=False)
    else:
        write_samples(where, numbers, rows, COLUMNS)
    return path_of(where, numbers)


def undisturbed(study):
    """Return the bits of a study that is run in memory."""
    store = MemoryStore()
    run(study, store, HERE, silent)
    return bits(store, study)


@st.composite
def leftovers(draw):
    """Draw files that may lie in a folder: nested, side by side, damaged, unfinished."""
    cuts = sorted(draw(st.sets(st.integers(0, COUNT), max_size=8)))
    blocks = [range(*pair) for pair in pairwise(cuts)]
    kept = [block for block in blocks if draw(st.booleans())]
    singles = draw(st.sets(st.integers(0, COUNT - 1), max_size=12))
    files = {*kept, *(range(n, n + 1) for n in singles)}
    ordered = sorted(files, key=lambda item: (item.start, item.stop))
    damaged = draw(st.sets(st.sampled_from(ordered), max_size=2)) if ordered else set()
    return ordered, damaged, draw(st.sets(st.integers(0, COUNT - 1), max_size=3))


@given(leftovers())
@settings(max_examples=60)
def test_whatever_is_left_every_sample_is_there_once(left):
    """What is sound is read and not run again; what is not is told, set aside and run again."""
    files, damaged, unfinished = left
    with tempfile.TemporaryDirectory() as name, patch.multiple(job_folder, BLOCK=BLOCK, SMALL=3):
        folder, log = Path(name) / "study", Path(name) / "log"
        quiet, study = plan(1, COUNT), plan(1, COUNT, log)
        with FolderStore(folder).writing(study):
            pass
        for numbers in files:
            path = write_file(folder, quiet, numbers, len(numbers) > 1)
            if numbers in damaged:
                path.write_bytes(path.read_bytes()[:-20])
        where = folder / "samples" / study.jobs[0].name
        where.mkdir(parents=True, exist_ok=True)
        for number in unfinished:
            (where / f"{number:08d}-{number:08d}.parquet.unfinished").write_bytes(b"PAR1")
        store = FolderStore(folder)
        run(study, store, HERE, silent)
        sound = {number for item in files if item not in damaged for number in item}
        ran = sorted(int(line[1]) for line in log_lines(log) if line[1] != "prepared")
        assert ran == sorted(set(range(COUNT)) - sound)
        assert bits(store, study) == undisturbed(quiet)
        assert len(store.notes) == len(damaged)
        there = sorted(path.name for path in where.iterdir())
        whole = path_of(where, range(COUNT)).name
        assert there == sorted([whole, *(f"{path_of(where, d).name}.damaged" for d in damaged)])


def test_what_is_read_while_files_are_merged_is_read_once(tmp_path):
    """A reader has no lock; a block and its samples may be there at once."""
    study = plan(1, COUNT)
    for numbers in (range(3, 9), range(4, 5), range(20, 21), range(7, 12)):
        write_file(tmp_path, study, numbers, merged=True)
    table = FolderStore(tmp_path).table(study.jobs[0])
    assert table.numbers.tolist() == [*range(3, 12), 20]
    expected = MemoryStore()
    run(study, expected, HERE, silent)
    every = expected.table(study.jobs[0])
    assert table.floats("gap, mm").tobytes() == every.floats("gap, mm")[table.numbers].tobytes()


def test_a_folder_may_be_made_read_and_taken_up(tmp_path):
    """An empty one is taken; a study that is done is not run again; nothing stored is no error."""
    folder, log = tmp_path / "deep" / "study", tmp_path / "log"
    study = plan(2, 5, log)
    assert bits(FolderStore(folder), study) == bits(MemoryStore(), study)
    run(study, FolderStore(folder), HERE, silent)
    lines = log_lines(log)
    run(study, FolderStore(folder), LocalHands(2), silent)
    assert log_lines(log) == lines
    assert bits(FolderStore(folder), study) == undisturbed(plan(2, 5))


def test_small_files_are_merged_as_soon_as_they_make_a_block(tmp_path):
    """A study of many samples does not leave many files, also while it runs."""
    study = plan(1, 300)
    most = []

    def count_files(_progress):
        most.append(len(list(tmp_path.rglob("*.parquet"))))

    run(study, FolderStore(tmp_path), HERE, count_files)
    assert max(most) <= job_folder.BLOCK + 300 // job_folder.BLOCK
    assert most[-1] == 1


@pytest.mark.parametrize("store_of", [FolderStore, lambda _: MemoryStore()])
def test_another_study_is_told_from_this_one(tmp_path, store_of):
    """What differs is named, with what it was and what it is."""
    store = store_of(tmp_path)
    run(plan(2, 5), store, HERE, silent)
    for other, told in (
        (renamed(plan(2, 5), seed="7"), "seed: 1 then, 7 now"),
        (plan(2, 5, about="a case\nof three lines"), "case: line 2: of two lines then, of three"),
        (renamed(plan(2, 5), scheme="balanced"), "scheme: nothing then, balanced now"),
        (plan(2, 6), "samples of job case-0: 5 then, 6 now; samples of job case-1"),
        (plan(1, 5), "job case-1: there then, not now"),
        (plan(3, 5), "job case-2: there now, not then"),
        (plan(2, 5, prefix="b"), "job b-0: there now, not then"),
    ):
        with pytest.raises(InputError, match=told) as raised:
            run(other, store, HERE, silent)
        assert "give another folder" in str(raised.value)


def test_other_columns_are_another_study(tmp_path):
    """Rows of both could not stand in one table."""
    study = plan(1, 3)
    run(study, FolderStore(tmp_path), HERE, silent)
    path = tmp_path / "study.json"
    written = json.loads(path.read_text())
    written["columns"][0][0][1] = "float"
    path.write_text(json.dumps(written))
    with pytest.raises(InputError, match="what samples of job case-0 hold"):
        run(study, FolderStore(tmp_path), HERE, silent)


@pytest.mark.parametrize("text", ["", "[]", '{"format": 1}', "{", '"'])
def test_a_study_file_that_cannot_be_read_is_told(tmp_path, text):
    """Nothing is run into such a folder."""
    (tmp_path / "study.json").write_text(text)
    with pytest.raises(InputError, match=r"study\.json: .* cannot be read"):
        run(plan(1, 3), FolderStore(tmp_path), HERE, silent)


def test_a_folder_with_other_things_is_left_alone(tmp_path):
    """So is a file."""
    (tmp_path / "holiday.jpg").write_bytes(b"")
    for path in (tmp_path, tmp_path / "holiday.jpg"):
        with pytest.raises(InputError, match="is no folder of a study"):
            run(plan(1, 3), FolderStore(path), HERE, silent)
    assert [entry.name for entry in tmp_path.iterdir()] == ["holiday.jpg"]
    with pytest.raises(InputError, match=r"cannot be made \(Not a directory\)"):
        run(plan(1, 3), FolderStore(tmp_path / "holiday.jpg" / "study"), HERE, silent)


@pytest.mark.parametrize("name", ["a b", "../up", "x" * 101, "ä"])
def test_names_that_cannot_name_files_are_refused(name):
    """Before anything is written."""
    with pytest.raises(InputError, match="must be 1 to 100 letters, digits"):
        run(plan(1, 3, prefix=name), MemoryStore(), HERE, silent)


def test_names_that_stand_twice_are_refused():
    """Also where they differ in capitals only, which some file systems do not tell apart."""
    study = plan(2, 3)
    twice = type(study)(
        study.about,
        (study.jobs[0], type(study.jobs[0])("CASE-0", None, 3, COLUMNS)),
        prepare,
        sample,
    )
    with pytest.raises(InputError, match="another job has this name"):
        run(twice, MemoryStore(), HERE, silent)


def test_only_one_process_writes(tmp_path):
    """The other is named; whoever is dead locks nothing."""
    code = (
        "from pathlib import Path\n"
        "from tests.made_studies import *\n"
        f"run(plan(1, 3), FolderStore(Path({str(tmp_path)!r})), LocalHands(1), silent)"
    )
    with FolderStore(tmp_path).writing(plan(1, 3)):
        done = run_python("-c", code)
        assert f"process {os.getpid()} on " in done.stderr
        assert "is running this study; wait until it is done" in done.stderr
        with pytest.raises(InputError, match=f"process {os.getpid()} on "):
            run(plan(1, 3), FolderStore(tmp_path), HERE, silent)
    assert (tmp_path / "writer.lock").read_text().startswith(f"process {os.getpid()} on ")
    assert run_python("-c", code).returncode == 0


def test_damage_within_a_file_is_found_when_it_is_merged(tmp_path):
    """Its end is as it should be, its content is not: its samples are run again in the same run."""
    study = plan(1, COUNT)
    with FolderStore(tmp_path).writing(study):
        pass
    path = write_file(tmp_path, study, range(5, 15), merged=False)
    content = bytearray(path.read_bytes())
    content[60] ^= 0xFF
    path.write_bytes(content)
    store = FolderStore(tmp_path)
    run(study, store, HERE, silent)
    assert len(store.notes) == 1
    assert f"{path} was damaged" in store.notes[0]
    assert "10 samples are run again" in store.notes[0]
    assert bits(store, study) == undisturbed(study)


def test_damage_within_a_file_is_told_when_it_is_read(tmp_path):
    """A reader changes nothing; what to do is said."""
    study = plan(1, COUNT)
    run(study, FolderStore(tmp_path), HERE, silent)
    path = path_of(tmp_path / "samples" / "case-0", range(COUNT))
    content = bytearray(path.read_bytes())
    content[60] ^= 0xFF
    path.write_bytes(content)
    with pytest.raises(InputError, match=r"damaged .* delete this file and run the same study"):
        FolderStore(tmp_path).table(study.jobs[0])
    path.unlink()
    run(study, FolderStore(tmp_path), HERE, silent)
    assert bits(FolderStore(tmp_path), study) == undisturbed(study)


def test_a_full_disk_ends_the_study_and_what_was_finished_is_kept(tmp_path, monkeypatch):
    """The message says which file, why, and what to do; no half file is left."""
    study = plan(1, COUNT)
    written = []
    replace = Path.replace

    def full(path, target):
        written.append(target)
        if len(written) > 10:
            raise OSError(28, "No space left on device")
        return replace(path, target)

    monkeypatch.setattr(whole_files.Path, "replace", full)
    with pytest.raises(InputError, match=r"cannot be written \(No space left on device\)"):
        run(study, FolderStore(tmp_path), HERE, silent)
    monkeypatch.undo()
    assert not list(tmp_path.rglob("*.unfinished"))
    assert len(FolderStore(tmp_path).table(study.jobs[0]).numbers) == 9  # and study.json
    run(study, FolderStore(tmp_path), HERE, silent)
    assert bits(FolderStore(tmp_path), study) == undisturbed(study)


@pytest.mark.parametrize("store_of", [FolderStore, lambda _: MemoryStore()])
def test_refused_jobs_are_remembered(tmp_path, store_of):
    """They are not tried again, and the others are whole."""
    log = tmp_path / "log"
    study = plan(3, 4, log, does=["", "refused", "not converged"])
    store = store_of(tmp_path / "study")
    run(study, store, HERE, silent)
    before = log_lines(log)
    run(study, store, HERE, silent)
    assert log_lines(log) == before
    assert [store.refused(job) for job in study.jobs] == [
        "",
        "these casts do not meet",
        "no closure was found (left after 7 rounds: 0.5)",
    ]
    assert [len(store.table(job).numbers) for job in study.jobs] == [4, 0, 0]
