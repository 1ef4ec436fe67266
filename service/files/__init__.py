"""Files in and out: gear lists, rosters and routes; workbooks and calendars."""
