"""The page of a study of one case: how sure its findings are; self-contained, as the report is."""

from concurrent.futures import Executor
from pathlib import Path
from typing import Final

from markupsafe import Markup

from kinematics import __version__
from kinematics.result_texts import CAUTION
from kinematics.uncertainty.found import Uncertainty
from scenes.drawing_orders import svg_of
from scenes.ordered_drawings import OrderedSvg
from scenes.report import STYLES, TEMPLATES, template
from scenes.uncertainty_chart import influence_charts
from scenes.uncertainty_words import uncertainty_section

STUDY_PAGE: Final = "study.html"


def study_page(title: str, note: str, studied: Uncertainty, drawing: Executor) -> str:
    """Return how sure the findings of a case are as one HTML page that needs nothing else.

    Parameters
    ----------
    title, note : str
        Of the case.
    studied : Uncertainty
        The study.
    drawing : Executor
        Draws the charts.
    """
    charts = [
        OrderedSvg(
            sheet, f"influences{number}", drawing.submit(svg_of, sheet, f"influences{number}")
        )
        for number, sheet in enumerate(influence_charts(studied))
    ]
    return template("study.html").render(
        title=title,
        note=note,
        version=__version__,
        style=Markup((TEMPLATES / STYLES[0]).read_text("utf-8")),
        caution=CAUTION,
        sure=uncertainty_section(studied),
        sure_charts=charts,
    )


def write_study_page(path: Path, html: str) -> None:
    """Write the page to a file, the same bytes for the same study.

    Raises
    ------
    OSError
        The file cannot be written.
    """
    path.write_bytes(html.encode("utf-8"))
