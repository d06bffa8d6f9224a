# Makes warp.png and warp.csv: a smooth picture, and 100 pixels of it squared by
# OpenCV (4.6) at about its own scale, so that only places and bilinear mixing
# matter, no filter. Run in this folder: python3 warp.py
#
# OpenCV counts pixels from the middle of the first: half less than ours.
import cv2
import numpy as np

y, x = np.mgrid[0:150, 0:200].astype(np.float64)
rgb = np.stack([
    128 + 90 * np.sin(x / 17) * np.cos(y / 23),
    120 + 80 * np.cos(x / 29 + y / 19),
    110 + 70 * np.sin((x - 2 * y) / 41),
], axis=2).round().astype(np.uint8)
cv2.imwrite("warp.png", rgb[..., ::-1])

length, width = 160, 80  # mm, one pixel each
corners = np.float32([[22.3, 118.9], [177.6, 109.2], [168.4, 33.7], [30.1, 41.5]])
face = np.float32([[0, width], [length, width], [length, 0], [0, 0]])  # row 0 at y = width
m = cv2.getPerspectiveTransform(face - 0.5, corners - 0.5)
out = cv2.warpPerspective(rgb.astype(np.float32), m, (length, width),
                          flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP)
with open("warp.csv", "w") as f:
    f.write("# column,row,red,green,blue: made by warp.py\n")
    for v in range(4, width, 8):
        for u in range(8, length, 16):
            f.write("%d,%d,%.3f,%.3f,%.3f\n" % (u, v, *out[v, u]))
