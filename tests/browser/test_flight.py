"""A flight by hand in a real notebook: time runs, the keys turn the bug, the debrief opens."""

import time

from lab import WAIT_MS

FLY = """
from vorlib.exhibits.flown_by_hand.exhibit import flight
from vorlib.exhibits.flown_by_hand import tasks

fly = flight("QLN", start_radial_deg=224, wind_kt=15, speed=5.0,
             tasks=[tasks.identify("QLN"), tasks.intercept("QLN", 40)])
fly
"""


def flown_s(page):
    """Seconds flown, as the picture says them."""
    words = page.locator(".vorlib-picture svg text").filter(has_text="flown").first.text_content()
    numbers = [int(word) for word in words.split() if word.isdigit()]
    return numbers[-1] + 60 * (numbers[0] if len(numbers) > 1 else 0)


def fly_on(page, seconds):
    """Wait until so many seconds are flown."""
    end = time.monotonic() + WAIT_MS / 1000
    while flown_s(page) < seconds:
        assert time.monotonic() < end
        page.wait_for_timeout(100)


def heading(page):
    card = page.locator('[data-grab="heading"]')
    return f"{card.get_attribute('aria-label')} {card.get_attribute('aria-valuetext')}"


def needle(page):
    return page.locator(".vorlib-picture svg desc").text_content().split("needle is ")[1]


def test_a_flight_is_flown_paused_resumed_and_debriefed(run_notebook, notebook):
    page = run_notebook(notebook(FLY))
    card = page.locator('[data-grab="heading"]')
    card.wait_for()
    assert flown_s(page) == 0
    before = needle(page)

    page.get_by_role("button", name="Play", exact=True).click()
    card.focus()
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    page.wait_for_function(
        """() => document.querySelector('[data-grab="heading"]')
                 .ariaValueText.includes('wanted 060')"""
    )
    fly_on(page, 25)
    assert heading(page) == "Heading 060, wanted 060"
    assert needle(page) != before
    assert page.evaluate("document.activeElement.dataset.grab") == "heading"

    page.get_by_role("button", name="Pause", exact=True).click()
    page.get_by_role("button", name="Play", exact=True).wait_for()
    page.wait_for_timeout(500)
    paused = flown_s(page)
    page.wait_for_timeout(1500)
    assert flown_s(page) == paused

    page.get_by_role("button", name="On 1 s", exact=True).click()
    page.wait_for_function(f"() => document.body.textContent.includes('{paused + 1} s flown')")
    page.get_by_role("button", name="Identify", exact=True).click()
    page.locator(".vorlib-tasks li").nth(1).wait_for()

    page.get_by_role("button", name="Play", exact=True).click()
    fly_on(page, paused + 6)
    page.get_by_role("button", name="Debrief", exact=True).click()
    page.get_by_role("heading", name="Debrief").wait_for()
    page.get_by_role("button", name="Play", exact=True).wait_for()
    chart = page.locator(".vorlib-debrief .vorlib-drawn")
    assert chart.get_attribute("aria-label").startswith("Strip chart")
