"""Uploaded pictures made safe: told apart, looked into, made anew from pixels. No Django."""
