#!/usr/bin/env python3
"""Lays a HEIC picture out from parts, as telephones do.

usage: makeheic.py out.heic width height columns irot imir orientation part.heic...

Each part is the output of heif-enc for a picture of one size, 64 pixels or
more a side. irot is in quarter turns anticlockwise, imir 0 (top and bottom change places), 1
(left and right), or - for none; orientation is what EXIF says beside them, 0
for no EXIF. The colours are said to be Display P3 where P3 is set in the
environment, else sRGB.
"""
import os, struct, sys

def box(kind, data):
    return struct.pack('>I', 8 + len(data)) + kind.encode() + data

def full(kind, version, flags, data):
    return box(kind, struct.pack('>I', version << 24 | flags) + data)

def boxes(p):
    while p:
        n = struct.unpack('>I', p[:4])[0]
        yield p[4:8].decode('latin1'), p[8:n]
        p = p[n:]

def part(name):
    top = dict(boxes(open(name, 'rb').read()))
    meta = dict(boxes(top['meta'][4:]))
    props = dict(boxes(dict(boxes(meta['iprp']))['ipco']))
    return props['hvcC'], props['ispe'], top['mdat']

out, w, h, cols, irot, imir, orientation = sys.argv[1:8]
w, h, cols, orientation = int(w), int(h), int(cols), int(orientation)
parts = [part(n) for n in sys.argv[8:]]
rows = len(parts) // cols
n = len(parts)
grid = n + 1

props = [box('hvcC', parts[0][0]), box('ispe', parts[0][1]),
         full('ispe', 0, 0, struct.pack('>II', w, h)),
         box('colr', b'nclx' + struct.pack('>HHHB', 12 if 'P3' in os.environ else 1, 13, 6, 0x80))]
ours = [3, 4]
if irot != '0':
    props.append(box('irot', bytes([int(irot)])))
    ours.append(len(props))
if imir != '-':
    props.append(box('imir', bytes([int(imir)])))
    ours.append(len(props))
for p in parts:
    assert p[0] == parts[0][0] and p[1] == parts[0][1]
ipma = struct.pack('>I', n + 1)
for i in range(n):
    ipma += struct.pack('>HBBB', i + 1, 2, 0x81, 2)
ipma += struct.pack('>HB', grid, len(ours)) + bytes(ours)
iprp = box('iprp', box('ipco', b''.join(props)) + full('ipma', 0, 0, ipma))

def infe(i, kind, flags=0):
    return full('infe', 2, flags, struct.pack('>HH', i, 0) + kind + b'\0')

infos = [infe(i + 1, b'hvc1', 1) for i in range(n)] + [infe(grid, b'grid')]
refs = box('dimg', struct.pack('>HH', grid, n) + b''.join(struct.pack('>H', i + 1) for i in range(n)))
exif = b''
if orientation:
    # one directory with one tag: orientation, a short
    exif = struct.pack('>I', 0) + b'MM\0*' + struct.pack('>IHHHIHHI', 8, 1, 0x112, 3, 1, orientation, 0, 0)
    infos.append(infe(n + 2, b'Exif', 1))
    refs += box('cdsc', struct.pack('>HHH', n + 2, 1, grid))
layout = bytes([0, 0, rows - 1, cols - 1]) + struct.pack('>HH', w, h)

data = [p[2] for p in parts] + [layout] + ([exif] if exif else [])
def meta(at):
    iloc = struct.pack('>BBH', 0x44, 0, len(data))
    for i, d in enumerate(data):
        iloc += struct.pack('>HHHII', i + 1, 0, 1, at, len(d))
        at += len(d)
    return full('meta', 0, 0,
                full('hdlr', 0, 0, struct.pack('>I', 0) + b'pict' + bytes(13)) +
                full('pitm', 0, 0, struct.pack('>H', grid)) +
                full('iloc', 0, 0, iloc) +
                full('iinf', 0, 0, struct.pack('>H', len(infos)) + b''.join(infos)) +
                iprp + full('iref', 0, 0, refs))
ftyp = box('ftyp', b'heic' + struct.pack('>I', 0) + b'mif1heic')
start = len(ftyp) + len(meta(0)) + 8
open(out, 'wb').write(ftyp + meta(start) + box('mdat', b''.join(data)))
