import type { Course, Node, StrandCourse } from "../../generated/pattern";

/**
 * Stitches of another colour in a chart. The colour most of the coloured stitches have is left unmarked; each other one has
 * a field of its own shape behind its symbols: nothing is told by colour alone.
 */
export const SHAPES = ["disc", "square", "diamond", "disc-line", "square-line", "diamond-line"] as const;
export type Shape = (typeof SHAPES)[number];

/** Which field each colour of a piece has; a colour that is not in it has none. */
export function shadesOf(courses: readonly Pick<Course | StrandCourse, "body">[]): Map<string, Shape> {
  const many = new Map<string, number>();
  for (const course of courses) count(course.body, 1, many);
  const most = [...many].reduce((best, one) => (one[1] > best[1] ? one : best), ["", 0])[0];
  const others = [...many.keys()].filter((name) => name !== most);
  return new Map(others.slice(0, SHAPES.length).map((name, i) => [name, SHAPES[i] as Shape]));
}

function count(body: readonly Node[], times: number, many: Map<string, number>): void {
  for (const node of body) {
    if (node.type === "repeat") count(node.body, times * node.times, many);
    else if (node.colour && node.makes > 0) many.set(node.colour, (many.get(node.colour) ?? 0) + times * node.count * node.makes);
  }
}

const n = (v: number): string => (Math.round(v * 100) / 100).toString();

/** The field as a path, its middle at x, y. */
export function field(shape: Shape, x: number, y: number, r = 0.5): string {
  switch (shape.replace("-line", "")) {
    case "square":
      return `M${n(x - r)} ${n(y - r)}h${n(2 * r)}v${n(2 * r)}h${n(-2 * r)}Z`;
    case "diamond":
      return `M${n(x)} ${n(y - 1.2 * r)}l${n(1.2 * r)} ${n(1.2 * r)}l${n(-1.2 * r)} ${n(1.2 * r)}l${n(-1.2 * r)} ${n(-1.2 * r)}Z`;
    default:
      return `M${n(x - r)} ${n(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
  }
}
