"""Whatever happens to lays.json or its journal is named, with its line where it has one, and never used or a crash.

Longer than 400 lines: one file, and every way to harm it.
"""

import json
import os
import random
import shutil
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pieces_for_lays import jacket_request

from boltside.lay import solve, store_disk
from boltside.lay.folded import solve_by_filling
from boltside.lay.model import Lay
from boltside.lay.store import LayStore, Receipts, StoreDamaged

REQUEST = jacket_request("folded")
PLAN = "quay, outer, size 92"


@pytest.fixture(scope="module")
def lay() -> Lay:
    return solve_by_filling(REQUEST, trials=5)


@pytest.fixture(scope="module")
def texts(lay: Lay) -> tuple[bytes, bytes]:
    """A file of three lays (header and pieces are lines 2 and 3, the lays 4 to 6), and a journal of three lays."""
    with tempfile.TemporaryDirectory() as folder:
        store = LayStore(Path(folder) / "lays.json")
        for number in range(3):
            store.put(f"key {number}", PLAN, lay, solve.likeness(REQUEST, "full"))
        journal = store.journal.read_bytes()
        store.compact(makers=solve.makers())
        return store.path.read_bytes(), journal


def replaced(line: int, old: bytes, new: bytes) -> Callable[[bytes], bytes]:
    """Changes the text of one line, in which the old text must be."""

    def change(content: bytes) -> bytes:
        lines = content.split(b"\n")
        assert old in lines[line - 1]
        lines[line - 1] = lines[line - 1].replace(old, new, 1)
        return b"\n".join(lines)

    return change


def instead(line: int, new: bytes | None) -> Callable[[bytes], bytes]:
    """Puts another text in place of a line, or cuts the line in the middle."""

    def change(content: bytes) -> bytes:
        lines = content.split(b"\n")
        lines[line - 1] = lines[line - 1][: len(lines[line - 1]) // 2] if new is None else new
        return b"\n".join(lines)

    return change


def swapped_lines(content: bytes) -> bytes:
    """The second lay under the key of the first one, but shorter: one of them must be wrong."""
    lines = content.split(b"\n")
    row = json.loads(lines[4].rstrip(b","))
    row["key"], row["length"] = "key 0", row["length"] - 1
    return b"\n".join([*lines[:4], json.dumps(row).encode() + b",", *lines[5:]])


DEEP = b"[" * 100_000
RUBBISH = random.Random(92).randbytes(5000)

FILES: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "empty": (lambda _: b"", "lays.json: it is empty; restore it from version control, or delete it and run"),
    "blank": (lambda _: b"\n \n", "lays.json: it is empty"),
    "cut off": (lambda content: content[: content.rfind(b"at") + 30], "lays.json:6: not readable as JSON ("),
    "cut off between lines": (lambda content: content[: content.rfind(b"{")], "lays.json:6: not readable as JSON ("),
    "a line cut in the middle": (instead(5, None), "lays.json:5: not readable as JSON ("),
    "a line without its comma": (replaced(4, b"},", b"}"), "lays.json:5: not readable as JSON ("),
    "rubbish": (lambda _: RUBBISH, "is no UTF-8 text"),
    "rubbish in a line": (replaced(5, b"key 1", b"key \xe9"), "lays.json:5: the byte 0xE9 is no UTF-8 text"),
    "UTF-16": (lambda content: content.decode().encode("utf-16"), "lays.json:1: it is UTF-16 text, not UTF-8"),
    "byte order mark": (lambda content: b"\xef\xbb\xbf" + content, "lays.json:1: it begins with a byte order mark"),
    "zeros of a disk that lost power": (lambda content: b"\0" * len(content), "not readable as JSON"),
    "deep": (lambda _: DEEP, "lays.json: not readable as JSON (brackets in each other without end)"),
    "deep in a line": (instead(5, DEEP + b","), "lays.json:5: not readable as JSON (brackets in each"),
    "a number without end": (replaced(5, b'"length":', b'"length":' + b"9" * 5000), "lays.json:5: not readable as"),
    "a huge number": (replaced(5, b'"length":', b'"length":' + b"9" * 400), "lays.json:5: a lay makes no sense (999"),
    "a large number": (replaced(5, b'"length":', b'"length":1000000'), "is no whole number of at most 1000000000"),
    "NaN": (instead(5, b'{"length":NaN},'), "lays.json:5: not readable as JSON ('NaN' is no whole number)"),
    "Infinity": (instead(5, b'{"length":-Infinity},'), "lays.json:5: not readable as JSON ('-Infinity' is no whole"),
    "a fraction": (instead(5, b'{"length":1.5},'), "lays.json:5: not readable as JSON ('1.5' is no whole number)"),
    "a number in text": (replaced(5, b'"length":', b'"length":"1","x":'), "lays.json:5: a lay makes no sense ('1' is"),
    "a key twice": (replaced(5, b'"length":', b'"length":1,"length":'), "lays.json:5: not readable as JSON (the key"),
    "two lays of a key": (swapped_lines, "lays.json:5: another lay has the same key in line 4"),
    "another version": (replaced(2, b'"version":2', b'"version":3'), "lays.json:2: version 3, expected 2; restore"),
    "no version": (replaced(2, b'"version":2', b'"version":"2"'), "lays.json:2: version '2', expected 2"),
    "another header": (instead(2, b'{"format":"shopping list"},'), "lays.json:2: the first line is not the header"),
    "no makers": (replaced(2, b'"made_by"', b'"made"'), "lays.json:2: the header does not say who made the lays"),
    "makers of another kind": (replaced(2, b'"stamp"', b'"stomp"'), "lays.json:2: the header does not say who made"),
    "no list": (lambda _: b'{"format":"boltside lays"}', "not readable as JSON (it is not a list with a header)"),
    "no lay": (instead(5, b'"lay",'), "lays.json:5: a lay makes no sense (it is no lay)"),
    "no pieces": (instead(3, b'{"pieces":7,"plan":"x"},'), "lays.json:4: a lay makes no sense ("),
    "no plan": (instead(3, b'{"pieces":[]},'), "lays.json:3: a lay makes no sense (it has no 'plan')"),
    "half a letter": (replaced(3, b"quay", b"\\ud800"), "lays.json:4: a lay makes no sense ("),
    "no key": (replaced(5, b'"key":"key 1"', b'"kay":"key 1"'), "lays.json:5: a lay makes no sense (it has no 'key')"),
    "no places": (replaced(5, b'"at"', b'"it"'), "lays.json:5: a lay makes no sense (it has no 'at')"),
    "a place too short": (replaced(5, b"[[0,0,", b"[[0,"), "lays.json:5: a lay makes no sense (not enough values"),
    "a piece counted from the end": (replaced(5, b"[[0,0,", b"[[-1,0,"), "lays.json:5: a lay makes no sense (a number"),
    "a piece too many": (replaced(5, b"[[0,0,", b"[[9,0,"), "lays.json:5: a lay makes no sense (a number names"),
    "turned by half": (replaced(5, b"]]", b",2]]"), "lays.json:5: a lay makes no sense ("),
    "another way": (replaced(5, b'"way":"folded"', b'"way":"rolled"'), "lays.json:5: a lay makes no sense ('rolled'"),
    "another quality": (replaced(5, b'"way"', b'"quality":"best","way"'), "lays.json:5: a lay makes no sense ('best'"),
    "a nap of another kind": (replaced(5, b'"way"', b'"nap":"no","way"'), "lays.json:5: a lay makes no sense ('no' is"),
    "a likeness too short": (
        replaced(3, b'"back",', b'"back",1,'),
        "lays.json:4: a lay makes no sense ('back' has a mark",
    ),
    "an open merge": (
        lambda content: content.replace(
            b'{"at"', b'<<<<<<< HEAD\n{"at"', 1
        ),
        "lays.json:4: not readable as JSON ('<<<<<<< HEAD' is the mark of a merge that was not finished)",
    ),
    "the other half of an open merge": (instead(5, b">>>>>>> other"), "lays.json:5: not readable as JSON ('>>>>>>> ot"),
}  # fmt: skip


@pytest.mark.parametrize("what", FILES)
def test_a_damaged_file_is_named_with_its_line_and_refused(tmp_path, texts, what):
    change, said = FILES[what]
    path = tmp_path / "lays.json"
    changed = change(texts[0])
    assert changed != texts[0]
    path.write_bytes(changed)
    with pytest.raises(StoreDamaged) as refused:
        LayStore(path)
    message = str(refused.value)
    assert message.startswith(f"{path}:")
    assert said in message
    assert "; restore it from version control, or delete it and run `boltside lay`" in message
    assert len(message) < len(str(path)) + 300
    assert "\n" not in message
    assert path.read_bytes() == changed


JOURNALS: dict[str, tuple[Callable[[bytes], bytes], str]] = {
    "a line cut in the middle": (instead(2, None), "lays.journal:2: not readable ("),
    "a line without its end": (lambda content: content.replace(b"}\n", b"}", 1), "lays.journal:1: not readable ("),
    "rubbish": (lambda content: RUBBISH + b"\n" + content, "lays.journal:1: not readable ("),
    "rubbish in a line": (replaced(2, b"key 1", b"key \xe9"), "lays.journal:2: not readable (the byte 0xE9 is no"),
    "byte order mark": (lambda content: b"\xef\xbb\xbf" + content, "lays.journal:1: not readable (it begins with a"),
    "deep": (instead(2, DEEP), "lays.journal:2: not readable (brackets in each other without end)"),
    "a huge number": (replaced(2, b'"length":', b'"length":' + b"9" * 400), "lays.journal:2: not readable (999"),
    "a number without end": (replaced(2, b'"length":', b'"length":' + b"9" * 5000), "lays.journal:2: not readable ("),
    "NaN": (replaced(2, b'"length":', b'"length":NaN,"x":'), "lays.journal:2: not readable ('NaN' is no whole number)"),
    "a key twice": (replaced(2, b'"plan":', b'"plan":1,"plan":'), "the key 'plan' stands twice"),
    "no lay": (instead(2, b"[]"), "lays.journal:2: a lay makes no sense (it has no 'key')"),
    "no length": (replaced(2, b'"length"', b'"longth"'), "lays.journal:2: a lay makes no sense (it has no 'length')"),
    "a likeness of another kind": (replaced(2, b'"made"', b'"mode"'), "lays.journal:2: not readable (what it was made"),
    "shapes of another kind": (replaced(2, b'"shapes":{', b'"shapes":{"x":7,'), "lays.journal:2: not readable ("),
    "an open merge": (instead(2, b"======="), "lays.journal:2: not readable ('=======' is the mark of a merge that"),
}


@pytest.mark.parametrize("what", JOURNALS)
def test_a_damaged_line_of_the_journal_is_named_and_refused(tmp_path, texts, what):
    change, said = JOURNALS[what]
    journal = tmp_path / "lays.journal"
    changed = change(texts[1])
    assert changed != texts[1]
    journal.write_bytes(changed)
    with pytest.raises(StoreDamaged) as refused:
        LayStore(tmp_path / "lays.json")
    message = str(refused.value)
    assert message.startswith(f"{journal}:")
    assert said in message
    assert message.endswith("; delete this line and run `boltside lay`")
    assert journal.read_bytes() == changed


def test_no_change_of_any_one_byte_crashes_or_is_taken_for_another_lay(tmp_path, texts, lay):
    """Whatever is read is decoded whole: a lay that comes out has only values that a lay can have."""
    chance = random.Random(18)
    path = tmp_path / "lays.json"
    refused = 0
    for _ in range(200):
        content = bytearray(texts[0])
        at = chance.randrange(len(content))
        content[at] = chance.randrange(256)
        path.write_bytes(content)
        try:
            store = LayStore(path)
        except StoreDamaged as error:
            assert str(error).startswith(f"{path}:")
            refused += 1
            continue
        for key in store.keys_of(PLAN):
            assert isinstance(store.get(key), Lay)
        store.compact(makers=solve.makers())
    assert refused > 100


def test_a_file_whose_lines_another_program_broke_anew_is_read(tmp_path, texts, lay):
    path = tmp_path / "lays.json"
    path.write_text(json.dumps(json.loads(texts[0]), indent=2), encoding="utf-8")
    assert LayStore(path).get("key 1") == lay
    path.write_bytes(texts[0].replace(b"\n", b"\r\n"))
    assert LayStore(path).get("key 1") == lay
    assert LayStore(path).where("key 1") == f"{path}:5"


def test_lays_of_another_pattern_and_of_other_outlines_are_named_and_not_used(tmp_path, texts):
    path = tmp_path / "lays.json"
    path.write_bytes(texts[0])
    store = LayStore(path)
    assert store.keys_of("pier, outer, size 92") == ()
    assert store.not_used({"key 0", "key 1", "key 2"}, {PLAN}) == []
    assert store.not_used({"key 0", "key 2"}, {PLAN}) == [
        f"{path}:5: not used: a lay of '{PLAN}' that is of other outlines, choices or widths, "
        "has a better one beside it, or was changed"
    ]
    assert store.not_used({"key 0", "key 1"}, {"pier, outer, size 92"}) == [
        f"{path}:6: not used: a lay of '{PLAN}' that is not of this pattern"
    ]


# --- what stands in the file's place, and what may not be written -------------------------------------------------


@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_folder_in_the_place_of_the_file_is_named(tmp_path, name):
    (tmp_path / name).mkdir()
    with pytest.raises(StoreDamaged, match=rf"{name}: it is a folder, not a file; "):
        LayStore(tmp_path / "lays.json")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_pipe_in_the_place_of_the_file_is_not_waited_for(tmp_path, name):
    os.mkfifo(tmp_path / name)
    with pytest.raises(StoreDamaged, match=rf"{name}: it is no plain file; "):
        LayStore(tmp_path / "lays.json")


@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_file_larger_than_any_pattern_needs_is_not_read(tmp_path, name):
    with (tmp_path / name).open("wb") as file:
        file.truncate(store_disk.LARGEST_BYTES + 1)
    with pytest.raises(StoreDamaged, match=rf"{name}: it has 60000001 bytes, more than the 60000000 "):
        LayStore(tmp_path / "lays.json")


@pytest.fixture
def links(tmp_path: Path) -> Path:
    """A folder in which links can be made."""
    try:
        (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    except OSError:
        pytest.skip("this system lets nobody make links")
    (tmp_path / "link").unlink()
    (tmp_path / "shop").mkdir()
    return tmp_path


@pytest.mark.parametrize("there", [True, False])
@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_link_out_of_the_folder_is_neither_read_nor_written_through(links, texts, lay, name, there):
    outside = links / "outside"
    content = texts[0 if name == "lays.json" else 1]
    if there:
        outside.write_bytes(content)
    (links / "shop" / name).symlink_to(outside)
    with pytest.raises(StoreDamaged, match=rf"{name}: it is a link"):
        LayStore(links / "shop" / "lays.json")
    assert outside.read_bytes() == content if there else not outside.exists()


def test_a_link_that_comes_later_is_not_written_through_either(links, texts, lay):
    store = LayStore(links / "shop" / "lays.json")
    for name in ("lays.journal", "lays.json.new"):
        (links / "shop" / name).symlink_to(links / "outside")
    with pytest.raises(StoreDamaged, match=r"lays\.journal: it is a link, and would be written through"):
        store.put("key", PLAN, lay)
    store.journal.unlink()
    store.put("key", PLAN, lay)
    store.compact()
    assert not (links / "outside").exists()
    assert [path.name for path in (links / "shop").iterdir()] == ["lays.json"]


def test_links_in_a_circle_are_named(links):
    (links / "shop" / "lays.json").symlink_to(links / "shop" / "lays.json")
    with pytest.raises(StoreDamaged, match=r"lays\.json: it "):
        LayStore(links / "shop" / "lays.json")


@pytest.fixture
def nobody() -> Iterator[Path]:
    """A folder of its own, and a process that may not do everything, whoever runs the tests."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o777)
    root = hasattr(os, "seteuid") and os.geteuid() == 0
    if root:
        os.chown(folder, 65534, 65534)
        os.seteuid(65534)
    try:
        yield folder
    finally:
        if root:
            os.seteuid(0)
        folder.chmod(0o777)
        shutil.rmtree(folder)


on_posix = pytest.mark.skipif(sys.platform == "win32", reason="permissions work otherwise on Windows")


@on_posix
@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_file_that_may_not_be_read_is_named(nobody, texts, name):
    path = nobody / name
    path.write_bytes(texts[0 if name == "lays.json" else 1])
    path.chmod(0o000)
    with pytest.raises(StoreDamaged, match=rf"{name}: it can't be read \(Permission denied\)"):
        LayStore(nobody / "lays.json")


@on_posix
@pytest.mark.parametrize("name", ["lays.json", "lays.journal"])
def test_a_file_that_may_not_be_written_is_named_at_the_first_lay_and_stays_as_it_is(nobody, texts, lay, name):
    path = nobody / name
    content = texts[0 if name == "lays.json" else 1]
    path.write_bytes(content)
    path.chmod(0o444)
    store = LayStore(nobody / "lays.json")
    assert len(store) == 3
    with pytest.raises(StoreDamaged, match=rf"{name}: it can't be written \(Permission denied\); lays that were"):
        store.put("new", PLAN, lay)
    with pytest.raises(StoreDamaged, match=rf"{name}: it can't be written"):
        store.compact({"key 0"})
    assert path.read_bytes() == content


@on_posix
def test_a_folder_that_may_not_be_written_is_named(nobody, texts, lay):
    (nobody / "lays.json").write_bytes(texts[0])
    nobody.chmod(0o555)
    store = LayStore(nobody / "lays.json")
    with pytest.raises(StoreDamaged, match=r"lays\.journal: it can't be written \(Permission denied\)"):
        store.put("new", PLAN, lay)


@on_posix
def test_receipts_that_can_not_be_read_or_written_only_cost_time(nobody, lay):
    nobody.chmod(0o555)
    assert Receipts(nobody / "cache").checked("key", REQUEST, lay) == []
    nobody.chmod(0o777)
    (nobody / "lay-receipts.txt").mkdir()
    assert Receipts(nobody).checked("key", REQUEST, lay) == []


def test_a_disk_that_is_full_leaves_no_half_line_behind(tmp_path, lay, monkeypatch):
    """The system takes a part of the line and then has no more room."""
    store = LayStore(tmp_path / "lays.json")
    store.put("first", PLAN, lay)
    whole = store.journal.read_bytes()

    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(StoreDamaged, match=r"lays\.journal: it can't be written \(No space left on device\)"):
            store.put("second", PLAN, lay)
        assert store.journal.read_bytes() == whole
        with pytest.raises(StoreDamaged, match=r"lays\.json: it can't be written \(No space left on device\)"):
            store.compact()
    store.put("third", PLAN, lay)
    again = LayStore(store.path)
    assert (again.get("first"), again.get("second"), again.get("third")) == (lay, None, lay)


# --- two runs side by side ----------------------------------------------------------------------------------------


def test_what_another_run_keeps_meanwhile_is_not_lost_when_this_one_ends(tmp_path, lay):
    one, other = LayStore(tmp_path / "lays.json"), LayStore(tmp_path / "lays.json")
    one.put("of one", PLAN, lay)
    other.put("of the other", PLAN, lay)
    one.compact({"of one"})
    assert LayStore(one.path).get("of the other") == lay
    other.put("later", PLAN, lay)
    other.compact({"of the other", "later"})
    again = LayStore(one.path)
    assert [again.get(key) for key in ("of one", "of the other", "later")] == [lay] * 3


def test_a_line_that_another_run_was_just_writing_is_not_cut_off(tmp_path, lay):
    writer = LayStore(tmp_path / "lays.json")
    writer.put("first", PLAN, lay)
    writer.put("second", PLAN, lay)
    whole = writer.journal.read_bytes()
    writer.journal.write_bytes(whole[:-7])
    reader = LayStore(tmp_path / "lays.json")
    writer.journal.write_bytes(whole)
    reader.put("third", PLAN, lay)
    again = LayStore(tmp_path / "lays.json")
    assert [again.get(key) for key in ("first", "second", "third")] == [lay] * 3
