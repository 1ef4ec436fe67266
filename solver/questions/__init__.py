"""Questions around a plan: why there is none, what binds it, which calendars are worth having."""
