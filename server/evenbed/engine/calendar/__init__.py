"""Dates for ordinary calendar programs: iCalendar, RFC 5545."""
