"""What a kernel says waits for a slow reader."""

from kernels import printed

MANY = """
import vorlib.exhibits
from comm import create_comm
for number in range(6_000):
    create_comm(target_name="many", data={"svg": "x" * 3_000})
"""


def test_a_reader_who_is_slow_hears_all_that_a_kernel_said(client):
    printed(client, "")  # it has begun
    asked = client.execute(MANY)
    client.get_shell_msg(timeout=60)
    client.get_shell_msg(timeout=60)  # all is said, and nothing read yet
    heard = [client.get_iopub_msg(timeout=60)]
    while heard[-1]["content"].get("execution_state") != "idle":
        heard.append(client.get_iopub_msg(timeout=60))
    of_this = [one["msg_type"] for one in heard if one["parent_header"].get("msg_id") == asked]
    assert of_this.count("comm_open") == 6_000
