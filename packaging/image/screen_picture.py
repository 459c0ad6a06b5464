#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Turns a screen dump (PPM, P6) into a PNG and prints its mean brightness, 0 to 1.

Usage: screen_picture.py SCREEN.ppm OUT.png
"""
import pathlib
import re
import struct
import sys
import zlib


def chunk(kind, data):
    return (struct.pack(">I", len(data)) + kind + data
            + struct.pack(">I", zlib.crc32(kind + data)))


def main():
    source, out = sys.argv[1:]
    raw = pathlib.Path(source).read_bytes()
    head = re.match(rb"P6\s+(\d+)\s+(\d+)\s+255\s", raw)
    if not head:
        sys.exit(f"{source}: no screen dump")
    width, height = int(head[1]), int(head[2])
    pixels = raw[head.end():]
    if len(pixels) != width * height * 3:
        sys.exit(f"{source}: cut off")
    rows = b"".join(b"\0" + pixels[y * width * 3:(y + 1) * width * 3] for y in range(height))
    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    pathlib.Path(out).write_bytes(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header)
                                  + chunk(b"IDAT", zlib.compress(rows, 6)) + chunk(b"IEND", b""))
    print(f"{sum(pixels) / len(pixels) / 255:.3f}")


if __name__ == "__main__":
    main()
