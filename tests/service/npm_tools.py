"""Programs from the registry of npm, kept outside the repository; without it, tests skip."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

INSTALL_SECONDS = 400


def npm_tools(*packages: str) -> Path:
    """The folder of programs of these packages, each named with its version; a skip without npm.

    They are installed once for each user, into the cache folder of that user.
    """
    npm = shutil.which("npm")
    if npm is None or shutil.which("node") is None:
        pytest.skip("node and npm are not installed")
    cache = Path(os.environ.get("XDG_CACHE_HOME", Path.home() / ".cache"))
    name = "_".join(package.replace("/", "-").strip("@") for package in packages)
    folder = cache / "haulwright-npm" / name
    if not (folder / "complete").exists():
        folder.mkdir(parents=True, exist_ok=True)
        command = [
            npm,
            "install",
            "--no-audit",
            "--no-fund",
            "--ignore-scripts",
            "--prefix",
            folder,
        ]
        try:
            subprocess.run(
                [*command, *packages], check=True, capture_output=True, timeout=INSTALL_SECONDS
            )
        except (subprocess.CalledProcessError, subprocess.TimeoutExpired):
            pytest.skip(f"{', '.join(packages)} cannot be installed here")
        (folder / "complete").touch()
    return folder / "node_modules" / ".bin"
