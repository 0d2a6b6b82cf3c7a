"""What a hand does while time runs is kept, whatever thread JupyterLab sends it through."""

from kernels import press, printed, subshell_of, tell

PRESSES = 40

FLIGHT = """
import asyncio, threading
from vorlib.exhibits import flight
flying, threads = flight(), set()
move = flying.transport._move
def moves(seconds):
    threads.add(threading.current_thread().name)
    return move(seconds)
flying.transport._move = moves
flying.picture.observe(lambda _: threads.add(threading.current_thread().name), "hand")
print(flying.picture.comm.comm_id, flying.transport.play_button.comm.comm_id)
"""


def test_no_turn_of_a_hand_is_undone_by_the_time_that_runs(client):
    picture, play = printed(client, FLIGHT).split()
    thread = subshell_of(client)
    press(client, play, thread)
    printed(client, "await asyncio.sleep(0.3)")  # time runs, and the picture is sent
    for number in range(PRESSES):
        hand = {"view": "a", "drag": None, "steps": {"heading": [number + 1, 0]}}
        tell(client, picture, thread, hand=hand)
    seen = printed(
        client, "await asyncio.sleep(1); print(flying.state.wanted_heading_deg, threads)"
    )
    heading, threads = seen.split(maxsplit=1)
    assert float(heading) == (40.0 + 5.0 * PRESSES) % 360.0
    assert threads.strip() == "{'MainThread'}"


def test_a_page_hears_of_each_message_that_it_is_dealt_with(client):
    picture, _ = printed(client, FLIGHT).split()
    thread = subshell_of(client)
    asked = {tell(client, picture, thread, wheel=[str(number)]) for number in range(PRESSES)}
    while asked:
        message = client.get_iopub_msg(timeout=60)
        if message["content"].get("execution_state") == "idle":
            asked.discard(message["parent_header"]["msg_id"])
