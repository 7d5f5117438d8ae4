import { groundOf } from "../../drawings/ground";
import { RowDrawing } from "../../drawings/line";
import type { Hand } from "../../drawings/ring";
import { RoundDrawing } from "../../drawings/round";
import type { StrandCourse } from "../../generated/pattern";

interface Props {
  courses: readonly StrandCourse[];
  index: number;
  course: StrandCourse;
  done: number;
  hand: Hand;
}

export function LineOrRound({ courses, index, course, done, hand }: Props) {
  if (course.kind === "row") return <RowDrawing course={course} done={done} hand={hand} />;
  return <RoundDrawing course={course} ground={groundOf(courses, index)} done={done} hand={hand} />;
}
