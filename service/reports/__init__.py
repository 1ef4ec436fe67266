"""What a plan looks like to people: sheets, charts and pages."""
