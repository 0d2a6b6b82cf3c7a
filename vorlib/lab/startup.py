"""Begins a kernel of the course; the server names this file to its kernels as PYTHONSTARTUP."""

import contextlib

with contextlib.suppress(ImportError, NameError):  # without vorlib, or without a kernel
    get_ipython().extension_manager.load_extension("vorlib.lab.kernel")  # type: ignore[name-defined]
