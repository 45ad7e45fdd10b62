"""What the camera needs: the carried script is the one that is pinned, and one page alone may ask for the camera."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from site_src.carried import check_carried
from site_src.hosts import apache, nginx
from site_src.policy import CAMERA_PAGE, PERMISSIONS, STRICTEST, WITH_CAMERA, headers_of
from site_src.settings import SOURCE, BuildError

THEME = SOURCE / "theme"


def test_the_carried_script_is_the_one_that_is_pinned() -> None:
    check_carried(THEME)


@pytest.mark.parametrize("how", ["changed", "missing", "more"])
def test_another_script_stops_the_build(tmp_path: Path, how: str) -> None:
    folder = tmp_path / "assets/qr"
    shutil.copytree(THEME / "assets/qr", folder)
    if how == "changed":
        (folder / "decode.js").write_bytes((folder / "decode.js").read_bytes() + b"\n")
    elif how == "missing":
        (folder / "index.js").unlink()
    else:
        (folder / "more.js").write_text("")
    with pytest.raises(BuildError, match=r"pinned|pins"):
        check_carried(tmp_path)


def test_one_page_alone_may_ask_for_the_camera() -> None:
    assert "camera=()" in STRICTEST[PERMISSIONS] and "microphone=()" in STRICTEST[PERMISSIONS]
    assert "camera=(self)" in WITH_CAMERA
    for name in (CAMERA_PAGE, f"{CAMERA_PAGE}index.html"):
        assert headers_of(STRICTEST, name) == {**STRICTEST, PERMISSIONS: WITH_CAMERA}
    for name in ("", "index.html", "records/day-book/index.html", f"x/{CAMERA_PAGE}", "assets/qr/decode.js"):
        assert headers_of(STRICTEST, name) == STRICTEST


def test_the_settings_for_servers_name_the_page_below_its_folder() -> None:
    for made in (nginx(STRICTEST, "/handbook/", shared=True), apache(STRICTEST, "/handbook/", shared=True)):
        assert f"/handbook/{CAMERA_PAGE}" in made
        assert made.count(WITH_CAMERA) == 1


@pytest.mark.site
def test_the_copy_on_a_device_holds_the_script_and_the_page_with_its_leave(built_site: Path) -> None:
    offer = json.loads((built_site / "offline.json").read_text("utf-8"))
    kept = json.loads((built_site / offer["list"]).read_text("utf-8"))
    assert {"assets/qr/decode.js", "assets/qr/index.js", CAMERA_PAGE} <= kept["files"].keys()
    assert kept["apart"] == {CAMERA_PAGE: {**kept["headers"], PERMISSIONS: WITH_CAMERA}}
    assert (built_site / "notices/qr.txt").read_text("utf-8").startswith("The MIT License")
