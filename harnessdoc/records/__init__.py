"""The record book: static pages at the addresses that labels hold."""

from harnessdoc.records.book import record_book
from harnessdoc.records.photos import read_photos

__all__ = ["read_photos", "record_book"]
