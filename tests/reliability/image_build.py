"""Builds the image of docker/Dockerfile without a container engine, and unpacks it into a folder.

Debian's `debootstrap` makes a base with Python, and `buildah` does the steps of the Dockerfile on
it. Both need root. What was made lies in `.tools/image`, so that the base is made once.
"""

import json
import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / ".tools" / "image"
_BASE, _NAME = "localhost/haulwright-base", "localhost/haulwright"
_SUITE = "bookworm"
_PACKAGES = "python3,python3-venv,python-is-python3,ca-certificates"
_OF_THIS_MACHINE = ("/etc/ssl/certs", "/etc/pip.conf")
"""How this machine reaches its package index, lent to the steps of the build."""


@dataclass(frozen=True)
class Image:
    """An image in a folder, with what its Dockerfile says about running it."""

    folder: Path
    settings: dict

    @property
    def environment(self) -> dict[str, str]:
        """The variables that the image sets."""
        return dict(line.split("=", 1) for line in self.settings["Env"])

    def megabytes(self) -> float:
        """The size of its files [MB]."""
        told = subprocess.run(
            ["du", "--summarize", "--bytes", "--one-file-system", str(self.folder)],
            check=True,
            capture_output=True,
            text=True,
        )
        return int(told.stdout.split()[0]) / 1e6


def what_is_missing() -> str | None:
    """Why no image can be built here; None where it can."""
    if os.getuid() != 0:
        return "only root can make the root folder of an image"
    missing = [name for name in ("debootstrap", "buildah", "unshare") if not shutil.which(name)]
    if missing:
        return f"{', '.join(missing)} not installed; on Debian: apt-get install debootstrap buildah"
    return None


def buildah(*arguments: str) -> str:
    """Run one command of buildah on a store of our own; gives what it printed."""
    store = ["--root", str(FOLDER / "store"), "--runroot", str(FOLDER / "run")]
    answer = subprocess.run(
        ["buildah", *store, *arguments],
        env={**os.environ, "STORAGE_DRIVER": "vfs", "BUILDAH_ISOLATION": "chroot"},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if answer.returncode:
        raise RuntimeError(
            f"buildah {arguments[0]}: {answer.stdout[-2000:]}{answer.stderr[-3000:]}"
        )
    return answer.stdout.strip()


def make_base() -> None:
    """Make the base that the Dockerfile begins with, unless it is there."""
    if _BASE in buildah("images", "--format", "{{.Name}}").splitlines():
        return
    tree = FOLDER / "base"
    shutil.rmtree(tree, ignore_errors=True)
    subprocess.run(
        ["debootstrap", "--variant=minbase", f"--include={_PACKAGES}", _SUITE, str(tree)],
        check=True,
        stdout=subprocess.DEVNULL,
    )
    container = buildah("from", "scratch")
    buildah("copy", "--quiet", container, str(tree), "/")
    buildah("commit", "--quiet", container, _BASE)
    buildah("rm", container)
    shutil.rmtree(tree)


@contextmanager
def built() -> Iterator[Image]:
    """The image, built from the files as they are, in a folder while the context lasts."""
    FOLDER.mkdir(parents=True, exist_ok=True)
    make_base()
    lent = [path for path in _OF_THIS_MACHINE if Path(path).exists()]
    buildah(
        *("build", "--pull-never", "--format", "docker", "--build-arg", f"BASE={_BASE}"),
        *("--file", "docker/Dockerfile", "--ignorefile", "docker/Dockerfile.dockerignore"),
        *(part for path in lent for part in ("--volume", f"{path}:{path}:ro")),
        *("--tag", _NAME, "."),
    )
    container = buildah("from", "--pull-never", _NAME)
    try:
        told = json.loads(buildah("inspect", "--type", "image", _NAME))
        yield Image(Path(buildah("mount", container)), told["Docker"]["config"])
    finally:
        buildah("umount", container)
        buildah("rm", container)
        # Images without a name are what the stages of the build left behind.
        buildah("rmi", "--prune")
