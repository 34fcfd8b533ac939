"""Tactic motifs with evidence."""
