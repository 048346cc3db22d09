// @ts-check
/**
 * Draws a list of what the calculation has recorded: one call a drawing instead of a thousand. The
 * list is made by canvas.rs, which numbers what can stand in it in the same order.
 *
 * @param {CanvasRenderingContext2D} context
 * @param {number} ratio device px per CSS px
 * @param {Float64Array} list each entry with its numbers behind it
 * @param {string} words what the list names by its place, a line each; the first is the type face
 * @param {HTMLCanvasElement | undefined} back what an entry may copy
 */
export function replay(context, ratio, list, words, back) {
  const named = words.split("\n");
  const aligns = /** @type {CanvasTextAlign[]} */ (["left", "center", "right"]);
  // What is set already is not set again; -1: not known.
  let fill = -1;
  let stroke = -1;
  let width = -1;
  let size = 0;
  let align = -1;
  let dashed = true;
  const set = () => context.setTransform(ratio, 0, 0, ratio, 0, 0);
  /** @param {number} name */
  const fillWith = (name) => {
    if (fill !== name) context.fillStyle = named[fill = name];
  };
  set();
  context.lineCap = context.lineJoin = "round";
  context.textBaseline = "middle";
  for (let i = 0; i < list.length;) {
    switch (list[i++]) {
      case 0:
        context.beginPath();
        break;
      case 1:
        context.moveTo(list[i++], list[i++]);
        break;
      case 2:
        context.lineTo(list[i++], list[i++]);
        break;
      case 3:
        context.quadraticCurveTo(list[i++], list[i++], list[i++], list[i++]);
        break;
      case 4:
        context.moveTo(list[i] + list[i + 2], list[i + 1]);
        context.arc(list[i++], list[i++], list[i++], 0, 2 * Math.PI);
        break;
      case 5:
        context.rect(list[i++], list[i++], list[i++], list[i++]);
        break;
      case 6:
        context.closePath();
        break;
      case 7:
        fillWith(list[i++]);
        context.fill();
        break;
      case 8: {
        if (stroke !== list[i]) context.strokeStyle = named[stroke = list[i]];
        if (width !== list[i + 1]) context.lineWidth = width = list[i + 1];
        const end = i + 3 + list[i + 2];
        if (dashed || list[i + 2]) context.setLineDash([...list.subarray(i + 3, end)]);
        dashed = list[i + 2] > 0;
        i = end;
        context.stroke();
        break;
      }
      case 9:
        context.save();
        context.clip();
        break;
      case 10:
        context.restore();
        fill = stroke = width = align = -1;
        size = 0;
        dashed = true;
        break;
      case 11:
        if (align !== list[i + 3]) context.textAlign = aligns[align = list[i + 3]];
        // The sign of the size is the weight.
        if (size !== list[i + 4]) {
          size = list[i + 4];
          context.font = `${size < 0 ? 650 : 400} ${Math.abs(size)}px ${named[0]}`;
        }
        fillWith(list[i + 5]);
        context.fillText(named[list[i]], list[i + 1], list[i + 2]);
        i += 6;
        break;
      case 12:
        fillWith(list[i++]);
        context.fillRect(0, 0, list[i++], list[i++]);
        break;
      default:
        // Pixel by pixel; a canvas without size cannot be copied.
        if (!back?.width || !back.height) break;
        context.setTransform(1, 0, 0, 1, 0, 0);
        context.drawImage(back, 0, 0);
        set();
    }
  }
}
