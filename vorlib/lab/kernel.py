"""Prepare a kernel for the course: an extension of IPython.

To load it in your own kernel, set
``c.InteractiveShellApp.extensions = ["vorlib.lab.kernel"]``.
"""

from __future__ import annotations

import gc
from typing import Any

import vorlib
from vorlib import exhibits
from vorlib.io.notebooks import SAYS_AGAIN

__all__ = ["load_ipython_extension"]


def load_ipython_extension(shell: Any) -> None:
    """Let the cells of a lesson run in any order, and print no sentence twice.

    The imports of a lesson's first cell are already done. A cell that prints an exhibit's sentence
    again, for readers without a kernel, prints nothing: the sentence already stands under the
    exhibit, and a printed copy would not change when the exhibit does.

    Imported objects are frozen for the garbage collector. Otherwise it scans all of them now and
    then, and a picture comes a twentieth of a second late.
    """

    def unsaid(lines: list[str]) -> list[str]:
        says = SAYS_AGAIN.fullmatch("".join(lines).strip())
        said = says and shell.user_ns.get(says[0].partition(".")[0])
        return [] if hasattr(said, "widget") else lines

    shell.push({"v": vorlib, "x": exhibits}, interactive=False)
    shell.input_transformers_cleanup.append(unsaid)
    gc.freeze()
