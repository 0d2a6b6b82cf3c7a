"""A kernel of its own, to send messages to."""


def printed(client, source):
    """Run a cell and return what it prints."""
    asked, text = client.execute(source), ""
    while True:
        message = client.get_iopub_msg(timeout=60)
        if message["parent_header"].get("msg_id") == asked:
            text += message["content"].get("text", "")
            if message["content"].get("execution_state") == "idle":
                return text


def tell(client, comm, subshell=None, **state):
    """Send what a page sends when a hand changes a widget, perhaps through a thread for that.

    Return by what name the kernel's answers refer to it.
    """
    data = {"method": "update", "state": state, "buffer_paths": []}
    return _send(client, comm, subshell, data)


def press(client, comm, subshell=None):
    """Send what a page sends when a button is pressed."""
    _send(client, comm, subshell, {"method": "custom", "content": {"event": "click"}})


def _send(client, comm, subshell, data):
    message = client.session.msg("comm_msg", {"comm_id": comm, "data": data})
    if subshell is not None:
        message["header"]["subshell_id"] = subshell
    client.shell_channel.send(message)
    return message["header"]["msg_id"]


def subshell_of(client):
    """Return a thread for messages, as JupyterLab asks for one; None where kernels have none."""
    about = client.kernel_info(reply=True, timeout=60)["content"]
    if "kernel subshells" not in about.get("supported_features", []):
        return None
    client.control_channel.send(client.session.msg("create_subshell_request", {}))
    return client.get_control_msg(timeout=60)["content"]["subshell_id"]
