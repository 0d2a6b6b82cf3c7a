"""What a kernel of the course begins with: an extension of IPython.

A kernel of your own has it with ``c.InteractiveShellApp.extensions = ["vorlib.lab.kernel"]``.
"""

from __future__ import annotations

import gc
from typing import Any

import vorlib
from vorlib import exhibits
from vorlib.io.notebooks import SAYS_AGAIN

__all__ = ["load_ipython_extension"]


def load_ipython_extension(shell: Any) -> None:
    """Let any cell of a lesson be run first, and no sentence be said twice.

    What the first cell of a lesson imports is there already. A cell that prints an exhibit's
    sentence again, for readers without a kernel, prints nothing: the sentence stands under the
    exhibit, and what is printed would not follow when that is moved.

    What is imported stays: without this the collector of garbage now and then looks through all of
    it, and a picture comes a twentieth of a second late.
    """

    def unsaid(lines: list[str]) -> list[str]:
        says = SAYS_AGAIN.fullmatch("".join(lines).strip())
        said = says and shell.user_ns.get(says[0].partition(".")[0])
        return [] if hasattr(said, "widget") else lines

    shell.push({"v": vorlib, "x": exhibits}, interactive=False)
    shell.input_transformers_cleanup.append(unsaid)
    gc.freeze()
