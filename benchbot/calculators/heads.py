"""Which hex belongs to which metric thread by the standards, and why a hex does not tell the thread."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Standard:
    """A standard for heads or nuts: thread diameter in mm -> width across flats in mm.

    from_memory: no table was at hand to compare the figures with, and whoever is shown them is told so.
    """

    name: str
    flats: dict[int, int]
    from_memory: bool = False

    @property
    def label(self) -> str:
        """The name as it is shown."""
        return f"{self.name.removesuffix(')')}; value from memory)" if self.from_memory else self.name


# Compared with the tables that bd-warehouse (Apache-2.0) ships: hex_head_parameters.csv, hex_nut_parameters.csv and
# hex_head_with_flange_parameters.csv; ISO 4162 and ISO 15071 with the tables of FreeCAD's fasteners workbench
# (iso4162def.csv, iso15071def.csv); JIS B 1189 and JIS B 1180 with reprints of the standards.
_BOLT = {5: 8, 6: 10, 8: 13, 10: 16, 12: 18, 14: 21, 16: 24, 18: 27, 20: 30, 22: 34, 24: 36}
_SMALL_FLANGE = {5: 7, 6: 8, 8: 10, 10: 13, 12: 15, 14: 18, 16: 21}
STANDARDS: tuple[Standard, ...] = (
    Standard("ISO 4014 / ISO 4017", _BOLT),
    Standard("DIN 931 / DIN 933", {5: 8, 6: 10, 8: 13, 10: 17, 12: 19, 14: 22, 16: 24, 18: 27, 20: 30, 22: 32, 24: 36}),
    Standard("ISO 4032 (nut)", _BOLT),
    Standard("EN 1665 (flange)", {5: 8, 6: 10, 8: 13, 10: 16, 12: 18, 14: 21, 16: 24, 20: 30}),
    Standard("EN 1662 (small flange)", {5: 7, 6: 8, 8: 10, 10: 13, 12: 16, 14: 18, 16: 21}),
    Standard("ISO 4162 / ISO 15071 / JIS B 1189 (small flange)", _SMALL_FLANGE),
    Standard("JIS B 1180 (small)", {8: 12, 10: 14, 12: 17, 14: 19, 16: 22, 18: 24, 20: 27, 22: 30, 24: 32}),
    Standard("DIN 6921 (flange)", {5: 8, 6: 10, 8: 13, 10: 15, 12: 16, 14: 18, 16: 21, 20: 27}, from_memory=True),
)


def heads_of(diameter: int) -> dict[int, list[str]]:
    """Width across flats in mm -> the standards that put it on this thread, smallest first; empty for other threads."""
    found: dict[int, list[str]] = {}
    for standard in STANDARDS:
        if diameter in standard.flats:
            found.setdefault(standard.flats[diameter], []).append(standard.label)
    return dict(sorted(found.items()))


def threads_of(flats: int) -> dict[int, list[str]]:
    """Thread diameter in mm -> the standards that put this hex on it, smallest first; empty for other hexes."""
    found: dict[int, list[str]] = {}
    for standard in STANDARDS:
        for diameter, width in standard.flats.items():
            if width == flats:
                found.setdefault(diameter, []).append(standard.label)
    return dict(sorted(found.items()))
