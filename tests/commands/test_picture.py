"""benchbot picture: the file is the very picture that the chats send, and what cannot be drawn is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchbot.__main__ import main
from benchbot.pictures.rotor import rotor_picture
from benchbot.pictures.tightening import tightening_picture
from benchbot.pictures.wording import SPANISH


def test_each_is_drawn(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "it.png"
    assert main(["picture", "studs", "5", str(file)]) == 0
    assert file.read_bytes() == tightening_picture(5)
    assert main(["picture", "rotor", str(file)]) == 0
    assert file.read_bytes() == rotor_picture()
    assert main(["picture", "studs", "10", str(file), "--language", "es"]) == 0
    assert file.read_bytes() == tightening_picture(10, SPANISH)
    assert capsys.readouterr().out.splitlines() == [str(file)] * 3


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (["studs", "7", "a.png"], "7 (choose from 3, 4, 5, 6, 8, 10)"),
        (["studs", "a.png"], "FILE.png"),
        (["rotor", "a.jpg"], "does not end in .png"),
        (["pads", "a.png"], "'pads'"),
    ],
)
def test_wrong_usage(words: list[str], why: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["picture", *words])
    assert left.value.code == 2
    assert why in capsys.readouterr().err


def test_a_folder_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["picture", "rotor", str(tmp_path / "no" / "it.png")]) == 1
    assert "look at that file or folder" in capsys.readouterr().err
