"""Tests of dose."""
