"""The version of the service, as the package that is installed says it."""

from importlib.metadata import version

VERSION = version("haulwright")
