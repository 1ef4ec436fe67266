"""Settings from the environment."""

from pathlib import Path

import pytest

from service.settings import Settings, SettingsError, read_settings


def test_an_empty_environment_gives_the_defaults():
    """Without variables every setting has its default."""
    assert read_settings({"PATH": "/bin"}) == Settings()


def test_each_kind_of_setting_is_read():
    """Text, path, whole number and number are read from their variables."""
    settings = read_settings(
        {
            "HAULWRIGHT_HOST": "0.0.0.0",  # noqa: S104 - only read, never bound
            "HAULWRIGHT_DATABASE": "/data/x.sqlite3",
            "HAULWRIGHT_PORT": "80",
            "HAULWRIGHT_SOLVE_SECONDS": "2.5",
        }
    )
    assert settings.host == "0.0.0.0"  # noqa: S104 - only compared
    assert settings.database == Path("/data/x.sqlite3")
    assert (settings.port, settings.solve_seconds) == (80, 2.5)


@pytest.mark.parametrize(
    ("variable", "text"),
    [
        ("HAULWRIGHT_PORT", "http"),
        ("HAULWRIGHT_PORT", "0"),
        ("HAULWRIGHT_PORT", "-1"),
        ("HAULWRIGHT_SOLVE_SECONDS", "nan"),
        ("HAULWRIGHT_SOLVE_SECONDS", "0"),
        ("HAULWRIGHT_SOLVE_SECONDS", "1e3"),
        ("HAULWRIGHT_DATABASE", ""),
    ],
)
def test_a_setting_that_cannot_be_used_is_named(variable, text):
    """A wrong value stops the start with a message that names the variable."""
    with pytest.raises(SettingsError, match=variable):
        read_settings({variable: text})
