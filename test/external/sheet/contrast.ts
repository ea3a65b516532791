/** The contrast of two colours as a browser gives them (`rgb(1, 2, 3)`): WCAG 2.2, contrast ratio, 1 to 21. */
export function contrast(one: string, other: string): number {
  const [darker = 0, lighter = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (lighter + 0.05) / (darker + 0.05);
}

/** Relative luminance, WCAG 2.2. */
function luminance(color: string): number {
  const [red = 0, green = 0, blue = 0] = (color.match(/[\d.]+/gu) ?? []).map((part) => {
    const share = Number(part) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
