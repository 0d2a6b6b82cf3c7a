"""A rehearsal of a class on this machine, for its user alone: every learner is one Unix user.

    jupyterhub -f rehearsal.py

What learners run here can read each other's files. So it listens to this machine only and refuses
to start at any other address. With a class use The Littlest JupyterHub or Zero to JupyterHub.
"""

import ipaddress
import os
import secrets
from pathlib import Path
from urllib.parse import urlsplit

from jupyterhub.proxy import ConfigurableHTTPProxy
from jupyterhub.spawner import SimpleLocalProcessSpawner

HERE = Path(__file__).parent
LEARNERS = [f"pilot{number:02}" for number in range(1, 31)]


def refuse_unless_loopback(address):
    """Raise ValueError unless only this machine can reach an address: a name, a number or a URL."""
    host = urlsplit(address).hostname if "//" in address else address
    try:
        is_loopback = host == "localhost" or ipaddress.ip_address(host or "").is_loopback
    except ValueError:
        is_loopback = False
    if not is_loopback:
        raise ValueError(f"a rehearsal listens at 127.0.0.1 and nowhere else, got {address!r}")


class LoopbackProxy(ConfigurableHTTPProxy):
    """The hub's proxy, which starts only where nobody outside can reach it."""

    async def start(self):
        for address in (self.public_url, self.api_url, self.hub.url):
            refuse_unless_loopback(address)
        await super().start()


class LoopbackSpawner(SimpleLocalProcessSpawner):
    """Starts a learner's server in a home of its own, where nobody outside can reach it."""

    async def start(self):
        refuse_unless_loopback(self.ip or "127.0.0.1")
        return await super().start()


c = get_config()  # noqa: F821
load_subconfig(str(HERE / "jupyterhub_config.py"))  # noqa: F821

folder = Path.cwd() / "vorlib-rehearsal"
folder.mkdir(mode=0o700, exist_ok=True)
c.JupyterHub.bind_url = "http://127.0.0.1:8000"
c.JupyterHub.proxy_class = LoopbackProxy
c.JupyterHub.db_url = f"sqlite:///{folder / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(folder / "cookie_secret")
c.ConfigurableHTTPProxy.pid_file = str(folder / "proxy.pid")
c.JupyterHub.cleanup_servers = True  # nothing is left running

c.JupyterHub.spawner_class = LoopbackSpawner
c.SimpleLocalProcessSpawner.home_dir_template = str(folder / "homes" / "{username}")
c.Spawner.environment = {"JUPYTER_CONFIG_PATH": str(HERE)}
if os.name == "posix" and os.geteuid() == 0:
    c.Spawner.args = ["--allow-root"]  # in a container root is the only user there is

password = os.environ.get("VORLIB_REHEARSAL_PASSWORD") or secrets.token_urlsafe(9)
c.JupyterHub.authenticator_class = "shared-password"
c.SharedPasswordAuthenticator.user_password = password
c.Authenticator.allowed_users = set(LEARNERS)
print(f"Rehearsal: log in as {LEARNERS[0]} to {LEARNERS[-1]}, password {password}", flush=True)
