"""Write pages as a PDF, the same bytes for the same pages."""

from __future__ import annotations

import contextlib
import io
from collections.abc import Iterator, Sequence

from vorlib.views.drawing.picture import Picture

__all__ = ["pdf_bytes"]


@contextlib.contextmanager
def _fonts_without_shaping() -> Iterator[None]:
    """Drop from fonts what shapes running text: the letters already have their places.

    Without these tables a PDF is made a third quicker.
    """
    from fontTools.subset import Options  # type: ignore[import-untyped]

    tables = Options._drop_tables_default
    Options._drop_tables_default = [*tables, "GDEF", "GPOS", "GSUB"]
    try:
        yield
    finally:
        Options._drop_tables_default = tables


def pdf_bytes(pages: Sequence[Picture], title: str) -> bytes:
    """Return pages as a PDF: the same pages give the same bytes, whoever makes them and when."""
    import matplotlib as mpl
    from matplotlib.backends.backend_pdf import PdfPages

    from vorlib.views.drawing.pdf import POINTS_PER_INCH, to_figure

    document = io.BytesIO()
    facts = {"Title": title, "Creator": "vorlib", "Producer": "vorlib", "CreationDate": None}
    with (
        mpl.rc_context({"pdf.fonttype": 42, "pdf.compression": 6, "pdf.use14corefonts": False}),
        _fonts_without_shaping(),
        PdfPages(document, metadata=facts) as pdf,
    ):
        for page in pages:
            pdf.savefig(to_figure(page, page.width / POINTS_PER_INCH))
    return document.getvalue()
