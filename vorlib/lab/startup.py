"""What a kernel of the course begins with, so that any cell of a lesson can be run first.

IPython runs the file that the environment variable ``PYTHONSTARTUP`` names.
"""

import contextlib

with contextlib.suppress(ImportError):  # a kernel of another Python begins with nothing
    import vorlib as v  # noqa: F401
    from vorlib import exhibits as x  # noqa: F401
