"""Controls that words and files are entered with: a line of text, and a file typed or uploaded."""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from html import escape
from typing import Any, Generic, TypeVar

import ipywidgets as widgets

from vorlib.core.words import as_sentence
from vorlib.exhibits.base.control import Changes, Control
from vorlib.exhibits.base.plain import plain, put_away
from vorlib.io.text import FileError, Source

__all__ = [
    "SHOWN_FAULTS",
    "FileEntry",
    "Note",
    "Opened",
    "Words",
    "first_of",
    "open_file",
    "paragraphs",
]

SHOWN_FAULTS = 4  # of a file with many; the rest are counted

T = TypeVar("T")


@dataclass(frozen=True)
class Opened(Generic[T]):
    """A file that was opened: what it is called, and what was read from it."""

    name: str
    content: T


def paragraphs(*lines: str, strong: Iterable[str] = ()) -> str:
    """Return lines as HTML, each a paragraph, and after them those that are set in bold."""
    plain = [f"<p>{escape(line)}</p>" for line in lines]
    return "".join([*plain, *(f"<p><b>{escape(line)}</b></p>" for line in strong)])


def first_of(messages: Sequence[str]) -> list[str]:
    """Return the first few of the messages about a file, and how many more there are."""
    more = len(messages) - SHOWN_FAULTS
    return [*messages[:SHOWN_FAULTS], *([f"and {more} more"] if more > 0 else [])]


def open_file(label: str, read: Callable[[Source], T], value: Any) -> Opened[T] | None:
    """Return the file that is meant by a path or an upload, opened; None for an empty path.

    Raises
    ------
    ValueError
        If it cannot be used; the message begins with the label and says why.
    """
    if isinstance(value, Opened) or value in (None, ""):
        return value or None
    if isinstance(value, Mapping):
        name, source = str(value["name"]), io.BytesIO(bytes(value["content"]))
        return _opened(label, read, name, source)
    path = str(value).strip()
    return _opened(label, read, path, os.path.expanduser(path)) if path else None


def _opened(label: str, read: Callable[[Source], T], name: str, source: Source) -> Opened[T]:
    try:
        return Opened(name, read(source))
    except FileNotFoundError:
        raise ValueError(f"{label}: there is no file {name}.") from None
    except OSError as error:
        raise ValueError(f"{label}: {name} cannot be read: {error.strerror}.") from None
    except FileError as error:
        lines = [f"{label}: {name} cannot be used.", *first_of(error.messages)]
        raise ValueError("\n".join(lines)) from None


class Note:
    """What stands under a control; without words it takes no room."""

    def __init__(self) -> None:
        self.widget = plain(widgets.HTML, classes="vorlib-note")
        self.say("")

    @property
    def html(self) -> str:
        """What stands there."""
        return str(self.widget.value)

    def say(self, html: str) -> None:
        """Show HTML in place of what was there."""
        self.widget.value = html
        put_away(self.widget, not html)


class Words(Control):
    """A line of text that stands for a value.

    Parameters
    ----------
    read
        The value meant by the text, or ValueError that says what is allowed.
    show
        The text that stands for a value.
    example
        Shown in the empty box.
    note
        From the state: what stands under the box, as HTML; with one it takes the whole width.
    consequences
        From the state and the value entered: what else changes with it.
    """

    def __init__(
        self,
        field: str,
        label: str,
        read: Callable[[str], Any],
        show: Callable[[Any], str],
        *,
        example: str = "",
        note: Callable[[Any], str] | None = None,
        consequences: Callable[[Any, Any], Changes] = lambda state, value: {},
    ) -> None:
        self.label, self._read, self._words, self._note = label, read, show, note
        self.box = plain(
            widgets.Text,
            description=label,
            placeholder=example,
            continuous_update=False,
            classes="vorlib-path" if note else "vorlib-words",
        )
        super().__init__(field, self.box)
        if note:
            self.widget.add_class("vorlib-across")
        self.consequences = consequences
        self.note = Note()
        self.widget.children = (*self.widget.children, self.note.widget)
        self.box.observe(self._entered, "value")

    def read(self, value: Any) -> Any:
        """Return the value meant by a text; anything else is a value already."""
        if not isinstance(value, str):
            return value
        try:
            return self._read(value.strip())
        except ValueError as error:
            raise ValueError(as_sentence(f"{self.label}: {error}")) from None

    def follow(self, state: Any) -> None:
        """Renew the note."""
        if self._note:
            self.note.say(self._note(state))

    def _show(self, value: Any) -> None:
        self.box.value = self._words(value)


class FileEntry(Control):
    """A file, by a path that is typed or by a button that uploads it; its value is `Opened`.

    An empty path means no file: None.

    Parameters
    ----------
    read
        What is read from a path or a stream.
    note
        From the state: what was read, as HTML.
    consequences
        From the state and the file opened: what else changes with it.
    """

    def __init__(
        self,
        field: str,
        label: str,
        read: Callable[[Source], Any],
        note: Callable[[Any], str],
        consequences: Callable[[Any, Any], Changes] = lambda state, value: {},
    ) -> None:
        self.label, self._read, self._note = label, read, note
        self.box = plain(
            widgets.Text,
            description=label,
            placeholder="a path, or press the button",
            continuous_update=False,
            classes="vorlib-path",
        )
        self.button = plain(
            widgets.FileUpload,
            description=f"Upload {label.lower()}",
            accept=".csv,.txt",
            tooltip=f"Upload {label.lower()}",
        )
        super().__init__(field, self.box, self.button)
        self.consequences = consequences
        self.note = Note()
        self.widget.children = (*self.widget.children, self.note.widget)
        self.widget.add_class("vorlib-across")
        self.box.observe(self._entered, "value")
        self.button.observe(self._uploaded, "value")

    def _uploaded(self, change: Mapping[str, Any]) -> None:
        if change["new"]:
            self.ask({self.field: change["new"][0]})

    def read(self, value: Any) -> Opened[Any] | None:
        """Return the file opened, or raise ValueError that says why it cannot be used."""
        return open_file(self.label, self._read, value)

    def follow(self, state: Any) -> None:
        """Renew the note."""
        self.note.say(self._note(state))

    def _show(self, value: Opened[Any] | None) -> None:
        self.box.value = value.name if value else ""
