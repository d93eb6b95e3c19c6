"""German dates: 3. November 2026."""

DATE_FORMAT = "j. F Y"
DATETIME_FORMAT = "j. F Y, H:i"
YEAR_MONTH_FORMAT = "F Y"
