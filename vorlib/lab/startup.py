"""Start a kernel of the course: the server's kernels run this file as their PYTHONSTARTUP."""

import contextlib

with contextlib.suppress(ImportError):  # a kernel without vorlib starts empty
    from IPython import get_ipython

    if get_ipython():
        get_ipython().extension_manager.load_extension("vorlib.lab.kernel")
