"""The trip as frozen data: route, calendar, roster, gear, menu, fuel and rules."""
