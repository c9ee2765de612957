"""Prints what Python says of each day from 2020-01-01 to 2027-12-31.

One line a day: the date, its ordinal (days since 0000-12-31), weekday (Monday 1), ISO week, day of the year, then the
ordinals of the date plus 1 to 120 months, then of the date minus 1 to 120 months, by dateutil's relativedelta.
"""

import datetime
import sys

try:
    from dateutil.relativedelta import relativedelta
except ImportError:
    print("the Python package dateutil (python3-dateutil) is not installed")
    sys.exit(77)

STEPS = [relativedelta(months=sign * months) for sign in (1, -1) for months in range(1, 121)]


def main():
    day = datetime.date(2020, 1, 1)
    while day.year < 2028:
        _, week, weekday = day.isocalendar()
        print(day, day.toordinal(), weekday, week, day.timetuple().tm_yday, *((day + step).toordinal() for step in STEPS))
        day += datetime.timedelta(days=1)


main()
