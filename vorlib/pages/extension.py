"""Set up a Jupyter server so that it shows the lessons as pages."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from jupyter_server.utils import url_path_join
from traitlets import Bool, Unicode
from traitlets.config import Config, Configurable
from voila.configuration import VoilaConfiguration
from voila.paths import collect_static_paths
from voila.server_extension import _kernel_id_regex as KERNEL
from voila.utils import get_voila_labextensions_path

from vorlib.pages.course_folder import CourseFolder
from vorlib.pages.handlers import (
    FRONT_END,
    AliveHandler,
    ExecutionHandler,
    Files,
    LeaveHandler,
    PageHandler,
)
from vorlib.pages.kernels import KernelsInReserve
from vorlib.pages.open_pages import OpenPages

__all__ = ["load"]

STATIC = Path(__file__).parent / "static"
# Only what draws widgets: other extensions of the user's JupyterLab have no place in a lesson.
EXTENSIONS = [
    "@voila-dashboards/widgets-manager8",
    "@jupyter-widgets/jupyterlab-manager",
    "anywidget",
]


class LessonPages(Configurable):
    """The options of the pages."""

    notebooks = Unicode(
        help="The folder of the course's notebooks, where JupyterLab opens copies of them.",
        config=True,
    )
    keeps_kernel_ready = Bool(
        True,
        help="Whether a kernel is kept ready for the next lesson, which then begins at once.",
        config=True,
    )


def load(server: Any) -> None:
    """Add the pages of the course to a server, with the handlers and kernels they need."""
    root = Path(server.root_dir).resolve()
    work = CourseFolder.below(root).path  # where JupyterLab opens a notebook, and cells are run
    options = LessonPages(parent=server)
    course = CourseFolder(Path(options.notebooks or work))
    folder = "/".join(work.relative_to(root).parts)
    kernels = KernelsInReserve(server.kernel_manager, folder, keeps_next=options.keeps_kernel_ready)
    pages = OpenPages(kernels)
    server.web_app.settings |= {"vorlib_kernels": kernels, "vorlib_pages": pages}
    front_end = VoilaConfiguration(
        config=Config(), progressive_rendering=True, extension_allowlist=EXTENSIONS
    )
    page = {
        "course": course,
        "work": work,
        "folder": folder,
        "pages": pages,
        "front_end": front_end,
    }
    files = {
        rf"{FRONT_END}/(.*)": collect_static_paths(["voila"], "base"),
        r"/voila/labextensions/(.*)": get_voila_labextensions_path(),
        r"/vorlib/(.*)": [str(STATIC)],
    }
    handlers: list[tuple[Any, ...]] = [
        (r"/voila/render/(.*)", PageHandler, page),
        (r"/voila/?", PageHandler, page),
        (rf"/voila/execution/{KERNEL}", ExecutionHandler, {"pages": pages}),
        (rf"/voila/api/shutdown/{KERNEL}", LeaveHandler, {"pages": pages}),
        (rf"/voila/api/alive/{KERNEL}", AliveHandler, {"pages": pages}),
        *((path, Files, {"path": places}) for path, places in files.items()),
    ]
    settings = server.web_app.settings
    base = settings["base_url"]
    kept = settings.get("static_immutable_cache", [])
    settings["static_immutable_cache"] = [*kept, url_path_join(base, FRONT_END)]
    server.web_app.add_handlers(
        ".*$", [(url_path_join(base, path), *what) for path, *what in handlers]
    )
