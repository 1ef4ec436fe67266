"""CP-SAT without the library of tables: it solves as ever, and tables stay what they are."""

import json
import subprocess
import sys

import pytest

from solver.model import cp_sat

_LOAD = """
import json, sys
{first}
from solver.model.cp_sat import cp_model
loaded = "pandas" in sys.modules
model = cp_model.CpModel()
xs = [model.new_int_var(0, 9, f"x{{n}}") for n in range(3)]
model.add(sum(xs) >= 20)
model.minimize(xs[0] + 2 * xs[1] + 3 * xs[2])
solver = cp_model.CpSolver()
status = solver.solve(model)
import pandas
row = cp_model.CpModel().new_int_var_series("y", pandas.Index([1, 2]), 0, 1) if {tables} else ()
print(json.dumps([loaded, status == cp_model.OPTIMAL, solver.objective_value,
                  int(pandas.Series([1, 2]).sum()), len(row)]))
"""


def _in_a_process(first: str, *, tables: bool) -> list:
    code = _LOAD.format(first=first, tables=tables)
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)
    return json.loads(run.stdout)


def test_the_interface_is_the_one_of_the_library() -> None:
    """No copy of it, and no part."""
    assert cp_sat.cp_model is sys.modules["ortools.sat.python.cp_model"]


def test_a_process_that_solves_loads_no_tables() -> None:
    """The model is solved to its optimum; pandas is not there before somebody asks for it."""
    assert _in_a_process("", tables=False) == [False, True, 33.0, 3, 0]


@pytest.mark.parametrize("first", ["import pandas", "from ortools.sat.python import cp_model"])
def test_who_has_tables_already_keeps_them(first: str) -> None:
    """The interface then has all of them, and its functions for tables work."""
    assert _in_a_process(first, tables=True) == [True, True, 33.0, 3, 2]


def test_an_interface_that_needs_more_of_the_tables_has_all_of_them() -> None:
    """A type that the stand-in does not have is no reason to fail: the real library is loaded."""
    first = (
        "import ortools.sat.python as here, pathlib, tempfile\n"
        "text = pathlib.Path(here.__path__[0], 'cp_model.py').read_text(encoding='utf-8')\n"
        "folder = tempfile.mkdtemp()\n"
        "more = text.replace('import pandas as pd', 'import pandas as pd; pd.DataFrame', 1)\n"
        "assert more != text\n"
        "pathlib.Path(folder, 'cp_model.py').write_text(more, encoding='utf-8')\n"
        "here.__path__.insert(0, folder)\n"
    )
    assert _in_a_process(first, tables=True) == [True, True, 33.0, 3, 2]
