"""A widget that tells its page that it is still there."""

from __future__ import annotations

from typing import Any

import anywidget

__all__ = ["Answering"]


class Answering(anywidget.AnyWidget):
    """A widget whose page asks now and then whether anybody answers; see `answers.js`."""

    def _handle_custom_msg(self, content: Any, buffers: Any) -> None:
        """Answer that question, and pass on every other message."""
        if isinstance(content, dict) and "alive" in content:
            self._mend(content)
            self.send({"alive": content["alive"]})
        else:
            super()._handle_custom_msg(content, buffers)

    def _mend(self, told: dict[str, Any]) -> None:
        """Put right what was lost on the way, by what the page tells with its question."""
