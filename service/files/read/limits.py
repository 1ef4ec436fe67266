"""How large a file may be, so that reading one always ends within 10 s and 1 GB.

How large a file of any kind may be is a setting of the service, `file_limit_bytes`.
"""

from typing import Final

SHEET_BYTES: Final = 16 * 1024 * 1024
"""Largest CSV file or workbook [byte]."""
UNPACKED_BYTES: Final = 64 * 1024 * 1024
"""Most that a workbook may unpack to, as counted while unpacking [byte]."""
PARTS: Final = 500
"""Most files within a workbook."""
ROWS: Final = 5_000
"""Most rows of a sheet, blank ones too; a request takes fewer items."""
COLUMNS: Final = 64
"""Most columns of a sheet."""
CELLS: Final = 250_000
"""Most cells of a workbook."""
CELL_CHARACTERS: Final = 2_000
"""Longest text of a cell."""
HEADER_ROWS: Final = 20
"""The header stands within this many rows from the top."""

POINTS: Final = 1_000_000
"""Most track points of a route file."""
WAYPOINTS: Final = 40
"""Most waypoints of a route file, as many as a request may have places."""
