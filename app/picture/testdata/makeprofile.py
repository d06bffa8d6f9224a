#!/usr/bin/env python3
"""Writes a Display P3 profile: the published colorants under D50, the curve of
sRGB as a formula, and its name in the form of version 4.

usage: makeprofile.py out.icc
"""
import struct, sys

def s15(v):
    return struct.pack('>i', round(v * 65536))

def xyz(*v):
    return b'XYZ \0\0\0\0' + b''.join(map(s15, v))

name = 'Display P3'.encode('utf-16-be')
curve = b'para\0\0\0\0' + struct.pack('>HH', 3, 0) + b''.join(map(s15, (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)))
text = lambda s: b'mluc\0\0\0\0' + struct.pack('>II', 1, 12) + b'enUS' + struct.pack('>II', len(s), 28) + s
tags = [(b'desc', text(name)), (b'cprt', text('none'.encode('utf-16-be'))), (b'wtpt', xyz(0.9642, 1, 0.8249)),
        (b'rXYZ', xyz(0.51512, 0.24120, -0.00105)), (b'gXYZ', xyz(0.29198, 0.69225, 0.04189)),
        (b'bXYZ', xyz(0.15710, 0.06657, 0.78407)), (b'rTRC', curve), (b'gTRC', curve), (b'bTRC', curve)]
table, body, at = struct.pack('>I', len(tags)), b'', 128 + 4 + 12 * len(tags)
for kind, data in tags:
    data += bytes(-len(data) % 4)
    table += kind + struct.pack('>II', at + len(body), len(data))
    body += data
head = bytearray(128)
size = 128 + len(table) + len(body)
struct.pack_into('>I4sI4s4s4s', head, 0, size, b'none', 0x04200000, b'mntr', b'RGB ', b'XYZ ')
struct.pack_into('>4s', head, 36, b'acsp')
struct.pack_into('>iii', head, 68, round(.9642 * 65536), 65536, round(.8249 * 65536))
open(sys.argv[1], 'wb').write(bytes(head) + table + body)
