"""Finishing: tabs, grain, notches, letters, allowances, cut counts and sums, from trued panels to a pattern."""
