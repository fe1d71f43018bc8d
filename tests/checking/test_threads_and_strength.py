"""Stress areas, classes and grades against the tables of the standards and against two libraries that ship them."""

from __future__ import annotations

import zipfile
from importlib.metadata import files
from math import pi
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from screw_thread_lib import Assembly
from screw_thread_lib.data import ASME_UN_2A2B_dict

from benchbot.checking.bolt_load import fastener_of
from benchbot.checking.strength import MPA_PER_KSI, Strength, strength_of, strongest
from benchbot.checking.threads import MM_PER_INCH, pitch_mm, stress_area
from benchbot.quantities.fittings import read_thread

# ISO 898-1, tables of proof loads: nominal stress area in mm², proof load in N for 8.8, 10.9 and 12.9. Coarse: the
# table as printed by a fastener distributor (optimas.com, "ISO Metric Pitch Thread Proof Loads", EN ISO 898-1).
COARSE = {
    "M3": (5.03, 2920, 4180, 4880), "M4": (8.78, 5100, 7290, 8520), "M5": (14.2, 8230, 11800, 13800),
    "M6": (20.1, 11600, 16700, 19500), "M7": (28.9, 16800, 24000, 28000), "M8": (36.6, 21200, 30400, 35500),
    "M10": (58.0, 33700, 48100, 56300), "M12": (84.3, 48900, 70000, 81800), "M14": (115, 66700, 95500, 112000),
    "M16": (157, 91000, 130000, 152000), "M18": (192, 115000, 159000, 186000), "M20": (245, 147000, 203000, 238000),
    "M22": (303, 182000, 252000, 294000), "M24": (353, 212000, 293000, 342000), "M27": (459, 275000, 381000, 445000),
}  # fmt: skip
# Fine: ISO 898-1, tables of fine pitch threads; values from memory.
FINE = {
    "M8x1": (39.2, 22700, 32500, 38000), "M10x1.25": (61.2, 35500, 50800, 59400), "M10x1": (64.5, 37400, 53500, 62700),
    "M12x1.5": (88.1, 51100, 73100, 85500), "M12x1.25": (92.1, 53400, 76400, 89300),
    "M14x1.5": (125, 72500, 104000, 121000), "M16x1.5": (167, 96900, 139000, 162000),
}  # fmt: skip
# The standard rounds its areas and loads to three figures, some of them up.
ROUNDED = 0.0075

# Machinery's Handbook and ASME B1.1, tensile stress areas in in²; values from memory.
INCH = {
    "1/4-20": 0.0318, "1/4-28": 0.0364, "5/16-18": 0.0524, "5/16-24": 0.0580, "3/8-16": 0.0775, "3/8-24": 0.0878,
    "7/16-14": 0.1063, "7/16-20": 0.1187, "1/2-13": 0.1419, "1/2-20": 0.1599, "9/16-12": 0.182, "9/16-18": 0.203,
    "5/8-11": 0.226, "5/8-18": 0.256, "3/4-10": 0.334, "3/4-16": 0.373, "7/8-9": 0.462, "7/8-14": 0.509,
    "1-8": 0.606, "1-12": 0.663,
}  # fmt: skip


def area(text: str) -> float:
    found = stress_area(read_thread(text))
    assert found is not None
    return found


@pytest.mark.parametrize(("thread", "row"), [*COARSE.items(), *FINE.items()])
def test_stress_areas_and_proof_loads_of_iso_898_1(thread: str, row: tuple[float, ...]) -> None:
    printed, *loads = row
    assert area(thread) == pytest.approx(printed, rel=ROUNDED)
    for number, load in zip(("8.8", "10.9", "12.9"), loads, strict=True):
        strength = strength_of(number, read_thread(thread))
        assert strength is not None
        fastener = fastener_of(read_thread(thread), strength)
        assert fastener is not None
        assert fastener.proof_load == pytest.approx(load, rel=ROUNDED)


@pytest.mark.parametrize(("thread", "square_inches"), INCH.items())
def test_stress_areas_of_inch_threads(thread: str, square_inches: float) -> None:
    assert area(thread) / MM_PER_INCH**2 == pytest.approx(square_inches, rel=0.004)


@pytest.mark.parametrize("thread", [name for name in ASME_UN_2A2B_dict if "/" in name or name.startswith("1-")])
def test_inch_areas_agree_with_a_library_of_fed_std_h28(thread: str) -> None:
    """screw-thread-lib 0.0.6, FED-STD-H28/2B formula 1b on its own ASME B1.1 table."""
    assembly = Assembly.from_database("ASME_UN_2A2B", thread)
    assert area(thread) / MM_PER_INCH**2 == pytest.approx(assembly.As_FEDSTD_1b(), rel=1e-4)


@pytest.mark.parametrize(
    ("library", "ours"), [("M8-1.25", "M8"), ("M12-1.75", "M12"), ("M20-2.5", "M20"), ("M24-3", "M24")]
)
def test_metric_areas_agree_with_a_library_of_iso_16224(library: str, ours: str) -> None:
    """screw-thread-lib 0.0.6, ISO/TR 16224 4.2.2.2 on its own ASME B1.13M table, in inches."""
    assembly = Assembly.from_database("ASME_M_6g6H", library)
    assert area(ours) == pytest.approx(assembly.As_ISO() * MM_PER_INCH**2, rel=1e-4)


def library_grades() -> dict[str, tuple[float, float, float, float]]:
    """Smallest and largest diameter, tensile and proof of each metric grade in melib 1.1.1 (Mott, table 19-3)."""
    book = next(file for file in files("melib") or [] if str(file).endswith("melib/data/mats.xlsx"))
    space = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
    with zipfile.ZipFile(str(book.locate())) as sheets:
        shared = ["".join(t.text or "" for t in si.iter(f"{space}t")) for si in _tree(sheets, "sharedStrings", space)]
        grades = {}
        for line in ElementTree.fromstring(sheets.read("xl/worksheets/sheet6.xml")).iter(f"{space}row"):
            cells = []
            for cell in line:
                held = cell.findtext(f"{space}v")
                if held is not None:
                    cells.append(shared[int(held)] if cell.get("t") == "s" else held)
            if cells and cells[0].startswith("GRADE "):
                least, most, tensile, _, proof = map(float, cells[1:])
                grades[cells[0].removeprefix("GRADE ")] = (least, most, tensile, proof)
    return grades


def _tree(sheets: zipfile.ZipFile, name: str, space: str) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(sheets.read(f"xl/{name}.xml")).iter(f"{space}si"))


def test_classes_agree_with_a_library_of_machine_elements() -> None:
    grades = library_grades()
    # The library writes 5.9 for what Mott prints as 5.8.
    grades["5.8"] = grades.pop("5.9")
    assert set(grades) == {"4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"}
    for number, (least, _, tensile, proof) in grades.items():
        size = "M20" if least > 16 else "M12"
        assert strength_of(number, read_thread(size)) == Strength(f"class {number}", proof, tensile)


# SAE J429, table 1, in ksi: proof and tensile; values from memory, 2, 5 and 8 up to 1 in as printed by ferrofast.com.
@pytest.mark.parametrize(
    ("grade", "thread", "proof", "tensile"),
    [
        ("1", "1/2-13", 33, 60), ("2", "3/4-10", 55, 74), ("2", "7/8-9", 33, 60), ("5", "1-8", 85, 120),
        ("5", "1-1/8-7", 74, 105), ("8", "1/2-20 UNF", 120, 150), ("8.2", "1/2-20", 120, 150),
    ],
)  # fmt: skip
def test_grades_of_sae_j429(grade: str, thread: str, proof: float, tensile: float) -> None:
    found = strength_of(grade, read_thread(thread))
    assert found is not None
    assert (found.proof / MPA_PER_KSI, found.tensile / MPA_PER_KSI) == pytest.approx((proof, tensile))


@pytest.mark.parametrize(
    "text", ["10.9", "class 10.9", "Class 10,9", "property class 10.9", "cl. 10.9", "10", "grade 10.9"]
)
def test_ways_to_write_a_class(text: str) -> None:
    found = strength_of(text, read_thread("M12x1.5"))
    assert found is not None
    assert (found.proof, found.tensile) == (830.0, 1040.0)


def test_a_whole_number_is_a_nut_on_metric_and_a_grade_on_inch() -> None:
    nut, grade = strength_of("8", read_thread("M10")), strength_of("Grade 8", read_thread("3/8-16"))
    assert nut is not None and grade is not None
    assert (nut.name, nut.proof) == ("class 8", 580.0)
    assert (grade.name, round(grade.proof)) == ("grade 8", 827)


@pytest.mark.parametrize(
    ("text", "thread"), [("A2-70", "M12"), ("10.8", "M12"), ("", "M12"), ("7", "1/2-13"), ("5", "1-5/8-6")]
)
def test_what_the_standards_do_not_know(text: str, thread: str) -> None:
    assert strength_of(text, read_thread(thread)) is None


def test_a_class_8_8_is_stronger_when_thick() -> None:
    """ISO 898-1, table 3: 580 MPa up to 16 mm, 600 MPa above."""
    stresses = {size: strength_of("8.8", read_thread(size)) for size in ("M16", "M18")}
    assert [one.proof for one in stresses.values() if one] == [580.0, 600.0]


def test_an_unwritten_pitch_is_the_coarse_one() -> None:
    assert [pitch_mm(read_thread(text)) for text in ("M8", "M10", "M12", "M14")] == [1.25, 1.5, 1.75, 2.0]
    assert pitch_mm(read_thread("M13")) is None
    assert stress_area(read_thread("M13")) is None


def test_sizes_beyond_the_standards_have_no_area() -> None:
    assert stress_area(read_thread("M42x3")) is None
    assert stress_area(read_thread("1-5/8-6")) is None


@given(st.floats(2, 39), st.floats(0.02, 0.17), st.floats(0.02, 0.17))
def test_a_finer_pitch_leaves_a_larger_area(diameter: float, one: float, other: float) -> None:
    fine, coarse = sorted((one, other))
    areas = [area(f"M{diameter:.4f}x{diameter * share:.4f}") for share in (fine, coarse)]
    assert areas[0] >= areas[1]
    assert areas[0] < pi / 4 * (diameter + 1e-4) ** 2


@given(st.sampled_from(["4.6", "5.8", "8.8", "9.8", "10.9", "12.9"]), st.floats(2, 38), st.floats(1.001, 1.1))
def test_a_larger_thread_bears_a_larger_load(number: str, diameter: float, wider: float) -> None:
    loads = []
    for size in (diameter, min(diameter * wider, 39.0)):
        thread = read_thread(f"M{size:.4f}x{diameter * 0.12:.4f}")
        fastener = fastener_of(thread, strength_of(number, thread) or strongest(thread))
        assert fastener is not None
        assert fastener.proof_load < fastener.breaking_load
        loads.append(fastener.proof_load)
    assert loads[0] < loads[1]


@given(st.floats(6.4, 38.0), st.floats(0.05, 0.17), st.floats(1.5, 2.5))
def test_area_goes_with_the_square_of_size(diameter: float, share: float, times: float) -> None:
    """Dimensions: a thread that is larger in every direction has the square of it in area."""
    wide = diameter * times
    if wide <= 39:
        small, large = (stress_area(read_thread(f"M{d:.6f}x{d * share:.6f}")) for d in (diameter, wide))
        assert small is not None and large is not None
        assert large / small == pytest.approx(times**2, rel=1e-4)


@given(st.integers(9, 38), st.sampled_from([0.75, 1.0, 1.25, 1.5]))
def test_the_area_lies_between_root_and_pitch_diameter(diameter: int, pitch: float) -> None:
    """ISO 724: d2 = d - 0.649519 P; ISO 898-1: d3 = d - 1.226869 P; the area is that of the mean of both."""
    d2, d3 = diameter - 0.649519 * pitch, diameter - 1.226869 * pitch
    assert area(f"M{diameter}x{pitch}") == pytest.approx(pi / 4 * ((d2 + d3) / 2) ** 2, rel=1e-4)
