"""Weeks and sessions: what each trainee does when, chosen and ordered by constraint optimisation."""
