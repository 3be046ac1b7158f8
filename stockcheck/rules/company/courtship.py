"""The sexes together: harassed females, and the young that follow."""

from __future__ import annotations

from collections.abc import Iterator

from stockcheck.facts.model import Facts
from stockcheck.language import say
from stockcheck.rules.company.keeping import Keeping, courting_pressure, keepings
from stockcheck.rules.company.rivalry import advised, shown
from stockcheck.rules.core import Finding, rule
from stockcheck.rules.wording import grade_of, sentence, softly, some

DARDEN = "Darden et al. 2009, PMC2686652"


@rule(
    "company/harassment",
    trips="""
[[animals]]
species = "Poecilia reticulata"
males = 6
females = 2
""",
    clears="""
[[animals]]
species = "Poecilia reticulata"
males = 2
females = 6
""",
    sources=(DARDEN,),
)
def harassment(facts: Facts) -> Iterator[Finding]:
    """Are the females worn out by the males?

    Mechanism.  Males of many livebearers court without rest; males of some labyrinth fish and cichlids attack
    a female that is not ready.  With enough females the attention is shared, with cover they can get out of
    sight.  Where the table says that a male may kill, no number of females makes it safe.

    Evidence.  Harassed female guppies lose their stable companions (Darden et al. 2009).  The number of
    females for each male is the table's, two where it says nothing.

    Limits.  The size of the effect is judgement.
    """
    for keeping in keepings(facts):
        pressure = courting_pressure(keeping)
        if not pressure.parts:
            continue
        species = keeping.species
        grade = grade_of((species, "male_female"))
        message = f"{_plaint(keeping, pressure.level, grade)}. {shown(pressure, 'courting')}"
        yield Finding(
            "company/harassment",
            pressure.level,
            message,
            advised(keeping) if pressure.level != "clear" else "",
            (species.slug,),
            grade,
            (DARDEN,),
            pressure.headroom,
        )


def _plaint(keeping: Keeping, level: str, grade: str) -> str:
    species = keeping.species
    males, females = some(keeping.males, species, "male"), say("{females} female", females=keeping.females)
    females += "s" if keeping.females > 1 else ""
    if species.male_female == "harass":
        many = keeping.males > 1
        verb = softly(
            grade,
            say("leave") if many else say("leaves"),
            say("{is_are} said to leave", is_are="are" if many else "is"),
        )
        return say("{males} {verb} {females} no peace", males=sentence(males), verb=verb, females=females)
    may = say("kill") if level == "stop" else say("injure")
    return say(
        "{males} may {may} {females}",
        males=sentence(males),
        may=may,
        females=say("the female") if keeping.females == 1 else say("the {females}", females=females),
    )
