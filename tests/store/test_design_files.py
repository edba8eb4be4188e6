"""Design files are known by content, and their names propose parts."""

from __future__ import annotations

import hashlib
import subprocess
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.store.designs.design_files import DesignFile, Kind, design_files, kind_of
from logbook.store.designs.part_names import FileName, propose_parts, read_name


def sha(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def lay(root: Path, files: dict[str, bytes]) -> Path:
    for path, data in files.items():
        place = root / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)
    return root


def found(root: Path) -> dict[str, DesignFile]:
    files, problems = design_files(root)
    assert problems == ()
    return {file.path: file for file in files}


def test_a_file_is_known_by_its_bytes_and_a_text_also_with_lf_ends(
    tmp_path: Path,
) -> None:
    lay(tmp_path, {"base.dxf": b"0\r\nEOF\r\n", "gate.stl": b"\0\r\n" * 9})
    files = found(tmp_path)
    assert files["base.dxf"].sha256 == sha(b"0\r\nEOF\r\n")
    assert files["base.dxf"].lf_sha256 == sha(b"0\nEOF\n")
    assert files["gate.stl"].sha256 == sha(b"\0\r\n" * 9)
    assert files["gate.stl"].lf_sha256 == ""


def test_one_content_on_several_paths_is_one_file_whatever_its_line_ends(
    tmp_path: Path,
) -> None:
    lay(
        tmp_path,
        {"a/base.dxf": b"0\nEOF\n", "b/base.dxf": b"0\r\nEOF\r\n", "c.dxf": b"0\n"},
    )
    assert [file.paths for file in found(tmp_path).values()] == [
        ("a/base.dxf", "b/base.dxf"),
        ("c.dxf",),
    ]


@given(cut=st.integers(-3, 3), body=st.sampled_from([b"\r\n", b"\r", b"\n", b"\r\r\n"]))
def test_line_ends_across_a_piece_of_the_file_are_seen_whole(
    tmp_path_factory: pytest.TempPathFactory, cut: int, body: bytes
) -> None:
    data = b"x" * ((1 << 20) + cut) + body + b"end\r\n"
    root = lay(tmp_path_factory.mktemp("cut"), {"long.scad": data})
    assert found(root)["long.scad"].lf_sha256 == sha(data.replace(b"\r\n", b"\n"))


def test_a_pointer_of_large_file_storage_is_a_file_whose_content_is_not_here(
    tmp_path: Path,
) -> None:
    # The example of the Git LFS specification, docs/spec.md, with our own oid.
    oid = sha(b"the real model")
    pointer = (
        f"version https://git-lfs.github.com/spec/v1\noid sha256:{oid}\nsize 12345\n"
    ).encode()
    lay(tmp_path, {"gate.stl": pointer, "other.stl": pointer + b"more\n"})
    files = found(tmp_path)
    assert files["gate.stl"] == DesignFile(
        ("gate.stl",), Kind.MESH, oid, "", 12345, here=False
    )
    assert files["other.stl"].here


def test_links_other_repositories_and_tool_folders_are_not_entered(
    tmp_path: Path,
) -> None:
    lay(
        tmp_path,
        {
            "base.dxf": b"base",
            ".git/x.dxf": b"1",
            "as-built/photos/x.svg": b"2",
            "node_modules/x/x.stl": b"3",
            "tools/pyvenv.cfg": b"",
            "tools/lib/x.py": b"4",
            "notes.txt": b"5",
        },
    )
    (tmp_path / "empty-submodule").mkdir()
    (tmp_path / "submodule").mkdir()
    subprocess.run(["git", "init", "-q", tmp_path / "submodule"], check=True)
    (tmp_path / "submodule" / "theirs.stl").write_bytes(b"6")
    (tmp_path / "linked.dxf").symlink_to(tmp_path / "base.dxf")
    (tmp_path / "loop").symlink_to(tmp_path)
    assert list(found(tmp_path)) == ["base.dxf"]


def test_a_file_that_cannot_be_read_is_told_and_stops_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lay(tmp_path, {"base.dxf": b"base", "lid.dxf": b"lid"})
    opened = Path.open

    def refuse(path: Path, _how: str) -> object:
        if path.name == "lid.dxf":
            raise PermissionError(13, "Permission denied")
        return opened(path, "rb")

    monkeypatch.setattr(Path, "open", refuse)
    files, [problem] = design_files(tmp_path)
    assert [file.path for file in files] == ["base.dxf"]
    assert str(problem) == (
        "lid.dxf: found a file that cannot be read (permission was denied); "
        "accepted: a readable design file"
    )


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("a/base.DXF", Kind.FLAT),
        ("gate .STL", Kind.MESH),
        ("bed.step", Kind.MODEL),
        ("list.xlsx", Kind.LIST),
        ("lamp.kicad_pcb", Kind.BOARD),
        ("notes.md", None),
        ("dxf", None),
        (".stl", None),
    ],
)
def test_the_ending_of_a_name_tells_the_kind(path: str, kind: Kind | None) -> None:
    assert kind_of(path) is kind


@pytest.mark.parametrize(
    ("path", "title", "number", "label", "guessed"),
    [
        ("base.dxf", "base", "", "", False),
        ("cut/Bed_Plate V1.2.STL", "Bed Plate", "", "V1.2", False),
        ("bed-plate-v2.stl", "bed-plate", "", "v2", False),
        ("bed plate rev3.step", "bed plate", "", "rev3", False),
        ("bed plate (rev B).step", "bed plate", "", "rev B", False),
        ("bedV3.stl", "bed", "", "V3", False),
        ("v2/bed.stl", "bed", "", "v2", False),
        ("2041_crossbar_B.dxf", "crossbar", "2041", "B", True),
        ("12 - lid.stl", "lid", "12", "", False),
        ("lid (left).stl", "lid left", "", "", False),
        ("lid_L.stl", "lid L", "", "", False),
        ("lid (rear)new.DXF", "lid rear", "", "new", True),
        ("collar .STL", "collar", "", "", False),
        ("film:strip (35).stl", "film:strip 35", "", "", False),
        ("15-50mL cup.stl", "15-50mL cup", "", "", False),
        ("hover2.stl", "hover2", "", "", False),
        ("adrev.stl", "adrev", "", "", False),
        ("M3x8 spacer.stl", "M3x8 spacer", "", "", False),
        ("1234.stl", "1234", "", "", False),
        ("v2.stl", "v2", "", "", False),
        ("lamp-F_Cu.gbr", "lamp", "", "", False),
    ],
)
def test_a_name_is_taken_apart_as_a_person_would(
    path: str, title: str, number: str, label: str, guessed: bool
) -> None:
    assert read_name(path) == FileName(title, number, label, guessed)


def files(*paths: str) -> list[DesignFile]:
    return [
        DesignFile((path,), kind_of(path) or Kind.MESH, sha(path.encode()), "", 1)
        for path in paths
    ]


def outline(*paths: str) -> dict[str, dict[str, list[str]]]:
    return {
        part.name: {
            revision.label: [file.path for file in revision.files]
            for revision in part.revisions
        }
        for part in propose_parts(files(*paths))
    }


def test_flat_pattern_mesh_and_model_of_one_name_are_one_part() -> None:
    assert outline("dxf/Top Plate.dxf", "stl/top_plate.stl", "top-plate.step") == {
        "top_plate": {"": ["dxf/Top Plate.dxf", "stl/top_plate.stl", "top-plate.step"]}
    }


def test_versions_side_by_side_are_revisions_in_their_order() -> None:
    assert outline("gate V1.10.stl", "gate-V1.9.stl", "gate.stl", "gate_old.stl") == {
        "gate": {
            "old": ["gate_old.stl"],
            "": ["gate.stl"],
            "V1.9": ["gate-V1.9.stl"],
            "V1.10": ["gate V1.10.stl"],
        }
    }


def test_left_and_right_are_two_parts() -> None:
    assert list(outline("upright (left).stl", "upright (right).stl")) == [
        "upright_left",
        "upright_right",
    ]


def test_a_list_or_a_drawing_alone_makes_no_part_but_goes_with_one() -> None:
    assert outline("parts.csv", "manual.pdf", "bed.pdf", "bed.step", "logo.svg") == {
        "bed": {"": ["bed.pdf", "bed.step"]}
    }


def test_a_drawing_alone_is_offered_unless_it_is_about_the_whole() -> None:
    laid = files(
        "crossbar.svg", "cut/mask.pdf", "bed.pdf", "bed.step", "logo.svg",
        "docs/base.svg", "wiring diagram.pdf", "parts.csv", "fit.py",
    )  # fmt: skip
    offered = propose_parts(laid, drawings=True)
    assert {part.title: part.only_drawn for part in offered} == {
        "bed": False,
        "crossbar": True,
        "mask": True,
    }


def test_one_name_in_two_folders_with_two_contents_is_two_parts() -> None:
    assert list(outline("left/plate.stl", "right/plate.stl")) == [
        "left_plate",
        "right_plate",
    ]


def test_parts_alike_but_for_a_drawing_number_are_said_to_be_doubtful() -> None:
    plain, numbered = propose_parts(files("Z-Plate V1.3.stl", "1009_Z_Plate.dxf"))
    assert (plain.name, numbered.name) == ("z_plate", "z_plate_1009")
    [doubt] = numbered.doubts
    assert doubt.startswith("Z-Plate V1.3.stl and 1009_Z_Plate.dxf: taken as two parts")


def test_a_content_under_another_name_and_a_guessed_letter_are_doubtful() -> None:
    twin = DesignFile(("bar_A.stl", "rail.stl"), Kind.MESH, "0" * 64, "", 1)
    [part] = propose_parts([twin])
    assert part.doubts == (
        "“A” is taken for a revision; it may belong to the name",
        "rail.stl has the same content: taken as one part of two names",
    )


def test_two_files_for_one_revision_are_said_to_be_doubtful() -> None:
    [part] = propose_parts(files("bed.stl", "bed.STL"))
    assert part.doubts == ("bed.STL and bed.stl differ: taken as one revision",)


@given(st.lists(st.text(min_size=1, max_size=12), min_size=1, max_size=6, unique=True))
def test_whatever_the_names_every_file_goes_into_one_part_with_its_own_name(
    stems: list[str],
) -> None:
    laid = files(*(stem.replace("/", "_") + ".stl" for stem in stems))
    parts = propose_parts(laid)
    names = [part.name for part in parts]
    assert len(set(names)) == len(names)
    assert all(part.title for part in parts)
    placed = [f for part in parts for r in part.revisions for f in r.files]
    assert sorted(f.path for f in placed) == sorted(f.path for f in laid)
