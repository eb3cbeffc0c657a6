"""The page of the steels says what the data say."""

from __future__ import annotations

import standards_page


def test_the_page_of_the_steels_is_that_of_the_data() -> None:
    written = standards_page.PAGE.read_text(encoding="utf-8")

    assert written == standards_page.page(), "write it anew: python tests/standards_page.py"
