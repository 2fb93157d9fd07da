"""The record book: static pages at the addresses that labels hold."""
