"""Opens the page in a browser without a screen, turns the part, moves the slider, reads a figure.

    python3 in_browser.py PROGRAM_OF_THE_IO_TESTS PAGE_TO_WRITE [PICTURE_TO_WRITE]
    python3 in_browser.py - PAGE_THAT_IS_THERE [PICTURE_TO_WRITE]

Exit code 77: no browser here (Debian: chromium, chromium-driver, python3-selenium)."""
import os
import shutil
import subprocess
import sys

SKIPPED = 77


def skip(why):
    print("skipped:", why)
    sys.exit(SKIPPED)


def options_for(with_webgl):
    options = webdriver.ChromeOptions()
    for word in (
        "--headless=new",
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--window-size=1000,900",
    ):
        options.add_argument(word)
    # Drawing in space without a graphics card, or not at all.
    for word in (
        ("--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader")
        if with_webgl
        else ("--disable-gpu", "--disable-3d-apis")
    ):
        options.add_argument(word)
    options.binary_location = browser
    return options


def open_page(with_webgl):
    driver = webdriver.Chrome(service=Service(chauffeur), options=options_for(with_webgl))
    driver.set_page_load_timeout(60)
    driver.get("file://" + os.path.abspath(page))
    return driver


def colours_in(driver):
    """How many different colours the canvas shows; one is the empty paper."""
    return driver.execute_script(
        """var canvas = document.querySelector('#part-view-canvas canvas');
        var copy = document.createElement('canvas');
        copy.width = canvas.width; copy.height = canvas.height;
        var paper = copy.getContext('2d');
        paper.drawImage(canvas, 0, 0);
        var bytes = paper.getImageData(0, 0, copy.width, copy.height).data;
        var seen = new Set();
        for (var i = 0; i < bytes.length; i += 4) {
          seen.add(bytes[i] * 65536 + bytes[i + 1] * 256 + bytes[i + 2]);
        }
        return seen.size;"""
    )


def turn_and_look(driver):
    place = driver.find_element(By.ID, "part-view")
    data = lambda key: place.get_attribute("data-" + key)
    assert data("ready") == "yes", "the view did not start"
    assert not driver.find_element(By.ID, "part-view-plain").is_displayed()
    driver.execute_script("arguments[0].scrollIntoView()", place)
    canvas = driver.find_element(By.CSS_SELECTOR, "#part-view-canvas canvas")
    n_colours = colours_in(driver)
    assert n_colours > 50, f"only {n_colours} colours: nothing is drawn"
    if picture:
        driver.save_screenshot(picture)

    before = data("camera")
    ActionChains(driver).drag_and_drop_by_offset(canvas, 120, 40).perform()
    assert data("camera") != before, "dragging does not turn the part"
    driver.find_element(By.ID, "part-view-reset").click()
    assert data("camera") == before, "the first view does not come back"

    step = driver.find_element(By.ID, "part-view-step")
    last = data("state")
    driver.execute_script(
        "arguments[0].value = 0; arguments[0].dispatchEvent(new Event('input'))", step
    )
    assert data("state") == "0" and last != "0", "the slider does nothing"
    name = driver.find_element(By.ID, "part-view-name").text
    assert name.startswith("1 bend-down"), name
    driver.execute_script(
        "arguments[0].value = arguments[1]; arguments[0].dispatchEvent(new Event('input'))",
        step,
        last,
    )

    choice = Select(driver.find_element(By.ID, "part-view-field"))
    choice.select_by_visible_text("Thinning")
    assert data("field") == "thinning"
    ActionChains(driver).move_to_element(canvas).click().perform()
    read = driver.find_element(By.ID, "part-view-readout").text
    assert "Thinning: " in read and "station" in read, "a click reads nothing: " + read
    choice.select_by_visible_text("Stretch along cut edges")
    if picture:
        driver.save_screenshot(os.path.splitext(picture)[0] + "-edge.png")
    print("turned, stepped and read:", read)
    wrong = [entry for entry in driver.get_log("browser") if entry["level"] == "SEVERE"]
    assert not wrong, wrong


def fall_back(driver):
    assert driver.find_element(By.ID, "part-view-plain").is_displayed(), "no plain note"
    assert not driver.find_element(By.ID, "part-view-live").is_displayed()
    print("without drawing in space: the plain note stands")


program, page = sys.argv[1:3]
picture = sys.argv[3] if len(sys.argv) > 3 else None
browser = shutil.which("chromium")
chauffeur = shutil.which("chromedriver")
if browser is None or chauffeur is None:
    skip("chromium or chromedriver is missing")
try:
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.by import By
    from selenium.webdriver.support.select import Select
except ImportError:
    skip("python3-selenium is missing")
if program != "-":
    subprocess.run(
        [program, "--gtest_filter=PartView.WritesAPageToLookAt"],
        env={**os.environ, "FLANGEWRIGHT_PAGE": page},
        check=True,
        stdout=subprocess.DEVNULL,
    )
for with_webgl, look in ((True, turn_and_look), (False, fall_back)):
    driver = open_page(with_webgl)
    try:
        look(driver)
    finally:
        driver.quit()
