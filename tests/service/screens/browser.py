"""A real Chromium without a window, driven by Selenium, and what can be read from a page in it."""

from __future__ import annotations

import base64
import contextlib
import shutil
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from selenium import webdriver
from selenium.common.exceptions import TimeoutException
from selenium.webdriver.chrome.options import Options
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
MISSING = (
    None
    if CHROMIUM and DRIVER and find_spec("selenium")
    else "chromium and chromium-driver are not installed"
)
"""Why there is no browser on this machine; None where there is one."""
AXE = Path(__file__).parents[3] / ".tools/node_modules/axe-core/axe.min.js"
_PHONE = {"width": 360, "height": 740, "deviceScaleFactor": 2, "mobile": True}

_CONTRAST = """
const parse = (colour) => (colour.match(/[\\d.]+/g) || []).map(Number);
const light = ([r, g, b]) => {
  const [x, y, z] = [r, g, b].map((c) => {
    c /= 255;
    return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * x + 0.7152 * y + 0.0722 * z;
};
const behind = (element) => {
  for (let one = element; one; one = one.parentElement) {
    const found = parse(getComputedStyle(one).backgroundColor);
    if (found.length === 3 || found[3] === 1) return found;
  }
  return [255, 255, 255];
};
const poor = [];
let seen = 0;
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const element = walker.currentNode.parentElement;
  if (!walker.currentNode.textContent.trim()) continue;
  if (element.closest("script, style, noscript, svg")) continue;
  if (!element.checkVisibility()) continue;
  seen += 1;
  const style = getComputedStyle(element);
  const [a, b] = [light(parse(style.color)), light(behind(element))].sort((x, y) => y - x);
  const ratio = (a + 0.05) / (b + 0.05);
  const size = parseFloat(style.fontSize);
  const large = size >= 24 || (size >= 18.66 && parseInt(style.fontWeight) >= 700);
  if (ratio < (large ? 3 : 4.5) && !element.disabled)
    poor.push(`${ratio.toFixed(2)} ${element.tagName} ${element.textContent.trim().slice(0, 40)}`);
}
return [seen, poor];
"""
"""The texts on the page, and those with a contrast below AA (WCAG 2.2, criterion 1.4.3)."""


@dataclass
class Browser:
    """One browser with one page in it."""

    driver: webdriver.Chrome

    def open(self, address: str, *, phone: bool = False) -> None:
        """Go to an address, on a screen of 360 or of 1200 px."""
        if phone:
            self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", _PHONE)
        else:
            self.driver.execute_cdp_cmd("Emulation.clearDeviceMetricsOverride", {})
        self.driver.get(address)

    def run(self, script: str) -> Any:
        """What a script on the page returns."""
        return self.driver.execute_script(script)

    def find(self, selector: str) -> WebElement:
        """The element of a CSS selector."""
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def text(self) -> str:
        """All text that is shown."""
        return self.find("body").text

    def await_text(self, words: str) -> None:
        """Wait until the page says something."""
        WebDriverWait(self.driver, 15).until(
            lambda _: words in self.run("return document.body ? document.body.innerText : ''")
        )

    def complaints(self) -> list[str]:
        """What the console has complained about since this was last asked."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    def overflow_px(self) -> int:
        """By how much the page is wider than the screen [px]."""
        return int(
            self.run(
                "return document.documentElement.scrollWidth - document.documentElement.clientWidth"
            )
        )

    def poor_contrasts(self) -> tuple[int, list[str]]:
        """The number of texts on the page, and those that are too pale."""
        seen, poor = self.run(_CONTRAST)
        return seen, poor

    def focusable(self) -> int:
        """How many links, buttons, fields and scrolled regions there are to see."""
        return int(
            self.run(
                "return [...document.querySelectorAll('a[href], button, input, [tabindex=\"0\"]')]"
                ".filter((one) => one.checkVisibility()).length"
            )
        )

    def tabbed_through(self) -> list[str]:
        """What the tabulator reaches, in order: the element's words, or what it is called.

        The browser answers a key before the focus has moved, now and then on a busy machine. So
        the next element is awaited; only after the last one the focus may be on nothing at once.
        """
        reached: list[str] = []
        every = self.focusable()
        for _ in range(every + 1):
            self.run("window.before = document.activeElement")
            self.press(Keys.TAB)
            if len(reached) < every and not self._has_moved():
                break
            name, outline = self.run(
                "const at = document.activeElement; return [at === document.body ? '' : "
                "at.getAttribute('aria-label') || at.getAttribute('aria-labelledby') || at.id || "
                "at.innerText, getComputedStyle(at).outlineStyle]"
            )
            if not name:
                break
            assert outline == "solid", f"{name} shows no focus"
            reached.append(name)
        return reached

    def _has_moved(self) -> bool:
        """Whether the focus is on another element than before, at the latest after 2 s."""
        with contextlib.suppress(TimeoutException):
            WebDriverWait(self.driver, 2, poll_frequency=0.02).until(
                lambda _: self.run(
                    "return ![window.before, document.body].includes(document.activeElement)"
                )
            )
            return True
        return False

    def press(self, key: str) -> None:
        """Press a key on whatever has the focus."""
        webdriver.ActionChains(self.driver).send_keys(key).perform()

    def printed(self) -> bytes:
        """The page as PDF."""
        made = self.driver.execute_cdp_cmd("Page.printToPDF", {"preferCSSPageSize": True})
        return base64.b64decode(made["data"])

    def axe_violations(self) -> list[str]:
        """What axe-core has against the page, rule by rule with the elements."""
        self.run(AXE.read_text(encoding="utf-8"))
        found = self.driver.execute_async_script(
            "const done = arguments[arguments.length - 1]; axe.run({resultTypes: ['violations']})"
            ".then((all) => done(all.violations.map((one) => one.id + ': ' + "
            "one.nodes.map((node) => node.target.join(' ')).join(', '))));"
        )
        return list(found)


def start(profile: Path) -> Browser:
    """A browser with a profile of its own."""
    options = Options()
    options.binary_location = str(CHROMIUM)
    for argument in (
        "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        "--disable-dev-shm-usage", "--window-size=1200,900", f"--user-data-dir={profile}",
    ):  # fmt: skip
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    return Browser(webdriver.Chrome(options=options, service=Service(str(DRIVER))))
