"""Plans as files for the office: a workbook, tables, a calendar."""
