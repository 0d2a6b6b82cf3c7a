"""A learner's server shows the course: etc/jupyter of the environment that servers run in."""

from vorlib.lab.learner_server import settings

c = get_config()  # noqa: F821
for part, values in settings().items():
    c[part].update(values)
