"""A made-up EPW year, for tests that need one."""

HEAD = [
    "LOCATION,Fernhollow,-,Nowhere,made up,000000,51.5,7.5,1.0,100.0",
    "DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0",
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0", "COMMENTS 1,", "COMMENTS 2,",
    "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
]  # fmt: skip
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def rows(leap=False):
    """Hours whose sun is 400 W/m² at noon, half of it from the sky; light of 110 lm/W."""
    made = []
    for month, days in enumerate(DAYS, start=1):
        for day in range(1, days + 1 + (leap and month == 2)):
            for hour in range(1, 25):
                watts = 400.0 if 9 <= hour <= 15 else 0.0
                cells = ["9"] * 35
                cells[:6] = "2015", str(month), str(day), str(hour), "60", "A7"
                cells[6] = f"{month:.1f}"
                cells[13:16] = f"{watts:g}", f"{watts / 2:g}", f"{watts / 2:g}"
                cells[16:19] = f"{watts * 110:g}", f"{watts * 45:g}", f"{watts * 65:g}"
                made.append(cells)
    return made


def epw(made, head=HEAD):
    """Text of a file with these rows."""
    return "\r\n".join([*head, *(",".join(cells) for cells in made)])
