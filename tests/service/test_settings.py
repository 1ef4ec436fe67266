"""Settings from the environment."""

import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from service.settings import (
    OF_OTHER_PROGRAMS,
    PREFIX,
    Settings,
    SettingsError,
    read_settings,
)

ROOT = Path(__file__).parents[2]


@pytest.fixture
def environment(monkeypatch) -> Callable[..., None]:
    """Sets variables, by their names without the prefix."""

    def set_all(**values: str) -> None:
        for name, value in values.items():
            monkeypatch.setenv(PREFIX + name, value)

    return set_all


def test_without_variables_every_setting_has_its_default():
    """The settings of a bare environment are the defaults."""
    assert read_settings() == Settings()
    assert (Settings().host, Settings().port) == ("127.0.0.1", 8000)


def test_a_solve_gets_what_it_asks_for_up_to_the_limit():
    """A request that asks for nothing gets the usual time, never more than the limit."""
    settings = Settings(solve_seconds=30, solve_limit_seconds=300)
    assert [settings.granted_solve_seconds(asked) for asked in (None, 5, 900)] == [30, 5, 300]
    assert Settings(solve_seconds=30, solve_limit_seconds=9).granted_solve_seconds(None) == 9


def test_each_kind_of_setting_is_read(environment):
    """Text, path, whole number and number are read from their variables."""
    environment(HOST="0.0.0.0", DATABASE="/data/x.sqlite3", PORT="80", SOLVE_SECONDS="2.5")  # noqa: S104 - never bound
    settings = read_settings()
    assert settings.host == "0.0.0.0"  # noqa: S104 - only compared
    assert settings.database == Path("/data/x.sqlite3")
    assert (settings.port, settings.solve_seconds) == (80, 2.5)


@pytest.mark.parametrize(
    ("name", "text", "may_be"),
    [
        ("PORT", "http", "a whole number from 1 to 65535, in digits, for example 8000"),
        ("PORT", "0", "a whole number from 1 to 65535"),
        ("PORT", "-1", "a whole number from 1 to 65535"),
        ("PORT", "65536", "a whole number from 1 to 65535"),
        ("PORT", "80.5", "a whole number from 1 to 65535"),
        ("SOLVE_SECONDS", "nan", "a number above 0, in digits, for example 30.0"),
        ("SOLVE_SECONDS", "0", "a number above 0"),
        ("SOLVE_SECONDS", "1e3", "a number above 0"),
        ("QUEUE_LIMIT", "1_000", "a whole number from 1, in digits, for example 500"),
        ("DATABASE", "", "a value, or leave it out"),
        ("HOST", "", "a value, or leave it out"),
    ],
)
def test_a_setting_that_cannot_be_used_is_named(environment, name, text, may_be):
    """A wrong value stops the start with a message that names the variable and what it may be."""
    environment(**{name: text})
    with pytest.raises(SettingsError) as raised:
        read_settings()
    assert str(raised.value).startswith(f'{PREFIX}{name}: "{text}" ')
    assert f"Write {may_be}" in str(raised.value)


def test_all_that_is_wrong_is_told_at_once(environment):
    """Two wrong values and an unknown variable make three lines."""
    environment(PORT="x", QUEUE_LIMIT="0", QUEUE="1")
    with pytest.raises(SettingsError) as raised:
        read_settings()
    assert len(str(raised.value).splitlines()) == 3


@pytest.mark.parametrize("variable", ["HAULWRIGHT_SOLVE_SECOND", "haulwright_solve_second"])
def test_a_misspelt_variable_stops_the_start(monkeypatch, variable):
    """A variable with our prefix that is no setting is named, with the setting it looks like."""
    monkeypatch.setenv(variable, "60")
    with pytest.raises(SettingsError, match=f"{variable}: .* mean HAULWRIGHT_SOLVE_SECONDS"):
        read_settings()


def test_variables_of_the_projects_other_programs_are_let_pass():
    """Every HAULWRIGHT_* variable that a file of the project reads or sets is known here."""
    settings = {PREFIX + name.upper() for name in Settings.model_fields}
    named = {
        variable
        for folder in ("docker", "examples", "tests", ".ci")
        for file in (ROOT / folder).rglob("*")
        if file.is_file() and file != Path(__file__) and file.suffix != ".pyc"
        for variable in re.findall(r"HAULWRIGHT_[A-Z_]+[A-Z]", file.read_text(errors="ignore"))
    }
    assert f"{PREFIX}OUTSIDE_DATA" in named
    assert named <= settings | OF_OTHER_PROGRAMS


def test_a_program_with_a_misspelt_variable_does_not_start():
    """`python -m service` ends with a line on standard error and a status other than 0."""
    ended = subprocess.run(
        [sys.executable, "-m", "service"],
        env={**os.environ, "HAULWRIGHT_PROT": "1"},
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert ended.returncode == 1
    assert ended.stderr.strip() == (
        "HAULWRIGHT_PROT: there is no such setting. Did you mean HAULWRIGHT_PORT?"
    )


def test_an_address_that_nobody_can_read_stops_the_start(environment):
    """What is said of it has nothing of its password."""
    environment(DATABASE_URL="postgresql://u:hush@db:many/plans")
    with pytest.raises(SettingsError, match="DATABASE_URL: this cannot be used") as raised:
        read_settings()
    assert "hush" not in str(raised.value)
