"""A class with vorlib on a JupyterHub: what the hub is told, whichever hub it is.

The Littlest JupyterHub takes this file in /opt/tljh/config/jupyterhub_config.d, another hub with
``load_subconfig("jupyterhub_config.py")`` in a configuration of its own. Who may log in, and how,
is said there. The learners' servers are told by jupyter_server_config.py, beside this file.
"""

c = get_config()  # noqa: F821

# A learner lands on the course's first page.
c.Spawner.default_url = "/voila/render/00_start_here.ipynb"

# What jupyterhub-singleuser starts, without what the course never uses: 20 MB less, and sooner.
c.Spawner.cmd = ["vorlib-single-user"]

# A server and its first lesson take about 200 MB, each further lesson that is left open 60 MB, and
# 40 MB more once a strip chart or a PDF of it was made.
c.Spawner.mem_limit = "1G"
# Of processors. Spawners that can hold a limit are those of systemd, Docker and Kubernetes.
c.Spawner.cpu_limit = 1.0

# A class logs in within the same minute; a machine with two processors takes 20 s for thirty.
c.JupyterHub.concurrent_spawn_limit = 40
c.Spawner.start_timeout = 180
c.Spawner.http_timeout = 180

# An update of the hub leaves the learners' servers, and what they do, running.
c.JupyterHub.cleanup_servers = False
