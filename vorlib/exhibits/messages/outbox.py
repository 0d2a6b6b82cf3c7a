"""What a kernel sends waits for a slow reader, and none of it is lost."""

from __future__ import annotations

from IPython import get_ipython

__all__ = ["keep_messages"]

# A lesson opens with up to 1,500 messages. ZeroMQ drops what is more than a thousand ahead of a
# reader without a word: then pictures do not come, or the end of a cell is never heard of. The
# limit stays for a reader that never comes back.
MOST_WAITING = 100_000


def keep_messages() -> None:
    """Let this kernel's messages wait until they are read; elsewhere than in a kernel, do nothing.

    The socket belongs to a thread of its own, so it is changed there.
    """
    shell = get_ipython()
    sending = getattr(getattr(shell, "kernel", None), "iopub_thread", None)
    if sending is not None:
        sending.schedule(lambda: setattr(sending.socket, "sndhwm", MOST_WAITING))
