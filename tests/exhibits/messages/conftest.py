"""A kernel for the tests of a file."""

import pytest
from jupyter_client.manager import start_new_kernel


@pytest.fixture(scope="module")
def client():
    """A kernel's client."""
    manager, client = start_new_kernel()
    yield client
    client.stop_channels()
    manager.shutdown_kernel(now=True)
