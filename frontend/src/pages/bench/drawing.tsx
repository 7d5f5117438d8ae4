import { RowDrawing } from "../../drawings/line";
import type { Hand } from "../../drawings/ring";
import { RoundDrawing } from "../../drawings/round";
import type { StrandCourse } from "../../generated/pattern";

export function LineOrRound(props: { course: StrandCourse; done: number; hand: Hand }) {
  return props.course.kind === "row" ? <RowDrawing {...props} /> : <RoundDrawing {...props} />;
}
