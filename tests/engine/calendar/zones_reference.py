"""Prints the offset, in seconds east of UTC, of five local times of each day from 2026 to 2091 in seven zones.

One line a day: zone, date, offsets at 00:30, 01:30, 02:30, 03:30 and 12:00. Of a time that the clocks pass twice the
first is meant, and one that they skip has the offset before the change (Python's `fold=0`).
"""

import datetime
import sys

ZONES = [
    "America/New_York",
    "America/Santiago",
    "Asia/Dhaka",
    "Asia/Jerusalem",
    "Australia/Melbourne",
    "Europe/Dublin",
    "Europe/London",
]
TIMES = [datetime.time(0, 30), datetime.time(1, 30), datetime.time(2, 30), datetime.time(3, 30), datetime.time(12)]


def main():
    try:
        zones = {name: zoneinfo_of(name) for name in ZONES}
    except Exception as fault:
        print(f"Python cannot read the time zones: {fault!r}")
        sys.exit(77)
    for name, zone in zones.items():
        day = datetime.date(2026, 1, 1)
        while day.year < 2092:
            offsets = (datetime.datetime.combine(day, time, zone).utcoffset() for time in TIMES)
            print(name, day, *(round(offset.total_seconds()) for offset in offsets))
            day += datetime.timedelta(days=1)


def zoneinfo_of(name):
    import zoneinfo

    return zoneinfo.ZoneInfo(name)


main()
