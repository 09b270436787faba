// plan.js - the plan of the bridge to scale, with the truck on it that is dragged, and what it does drawn along
// each girder.

const SVG = 'http://www.w3.org/2000/svg';

function shape(parent, name, attributes, text) {
  const node = document.createElementNS(SVG, name);
  for (const key of Object.keys(attributes)) {
    node.setAttribute(key, attributes[key]);
  }
  if (text !== undefined) {
    node.textContent = text;
  }
  parent.appendChild(node);
  return node;
}

const LEFT = 80, RIGHT = 196, TOP = 34, BOTTOM = 40;

// The still part of the plan for a width in px; what moves is drawn into `moving`.
function drawPlan(svg, data, width) {
  svg.textContent = '';
  const b = data.bridge;
  const scale = (width - LEFT - RIGHT) / (b.x1 - b.x0);
  const top = Math.min(b.cars[0].left, b.roadway[0]);
  const bottom = Math.max(b.cars[b.cars.length - 1].right, b.roadway[1]);
  const height = TOP + BOTTOM + (bottom - top) * scale;
  const X = (x) => LEFT + (x - b.x0) * scale, Y = (y) => TOP + (y - top) * scale;
  svg.setAttribute('viewBox', '0 0 ' + width + ' ' + height);
  const defs = shape(svg, 'defs', {});
  const hatch = shape(defs, 'pattern',
    { id: 'moving-hatch', width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(60)' });
  shape(hatch, 'path', { d: 'M0 0H5', class: 'moving-hatch' });
  const still = shape(svg, 'g', { 'aria-hidden': 'true' });
  for (const car of b.cars) {
    shape(still, 'rect', { class: 'moving-car', x: X(car.x0), y: Y(car.left), width: (car.x1 - car.x0) * scale,
      height: (car.right - car.left) * scale });
  }
  for (const beam of b.beams) {
    shape(still, 'path', { class: 'moving-beam', d: 'M' + X(beam[0]) + ' ' + Y(beam[1]) + 'V' + Y(beam[2]) });
  }
  for (const line of b.lines) {
    shape(still, 'path', { class: 'moving-line ' + line.role,
      d: 'M' + X(line.x0) + ' ' + Y(line.y) + 'H' + X(line.x1) });
  }
  for (const y of b.roadway) {
    shape(still, 'path', { class: 'moving-curb', d: 'M' + X(b.x0) + ' ' + Y(y) + 'H' + X(b.x1) });
  }
  for (const joint of b.joints) {
    if (joint.at.length > 0) {
      for (const x of joint.at) {
        shape(still, 'circle', { class: 'moving-joint', cx: X(x), cy: Y(joint.y), r: 2.5 });
      }
    } else {
      shape(still, 'path', { class: 'moving-joint', d: 'M' + X(joint.x0) + ' ' + Y(joint.y) + 'H' + X(joint.x1) });
    }
  }
  const length = data.units.length, first = Math.ceil(b.x0 / length.si - 1e-9), last = b.x1 / length.si;
  const step = [1, 2, 5, 10, 20, 50, 100].find((s) => s * scale * length.si >= 55) || 100;
  for (let x = first; x <= last + 1e-9; x += step) {
    shape(still, 'path', { class: 'moving-tick', d: 'M' + X(x * length.si) + ' ' + (height - 26) + 'v5' });
    shape(still, 'text', { x: X(x * length.si), y: height - 9, class: 'middle' },
      x + (x + step > last ? ' ' + length.name : ''));
  }
  shape(still, 'path', { class: 'moving-tick', d: 'M' + X(b.x0) + ' ' + (height - 26) + 'H' + X(b.x1) });
  const moving = shape(svg, 'g', { 'aria-hidden': 'true' });
  return { X, Y, scale, height, width, moving, toX: (px) => b.x0 + (px - LEFT) / scale,
    toY: (px) => top + (px - TOP) / scale };
}

const path = (points) => points.map((p, i) => (i === 0 ? 'M' : 'L') + p[0].toFixed(1) + ' ' + p[1].toFixed(1)).join('');

// Moments as hatched areas, sagging downwards, and the deflected shape dashed, both from the girder's own line.
function drawGirders(plan, data, shown, size) {
  for (const g of shown.girders) {
    const y0 = plan.Y(data.bridge.lines[g.line].y);
    const ends = [plan.X(data.bridge.lines[g.line].x0), plan.X(data.bridge.lines[g.line].x1)];
    const moment = g.moment.map((p) => [plan.X(p[0]), y0 + p[1] * size.moment]);
    const outline = path([[ends[0], y0]].concat(moment, [[ends[1], y0]]));
    shape(plan.moving, 'path', { class: 'moving-area', d: outline + 'Z' });
    shape(plan.moving, 'path', { class: 'moving-moment', d: outline });
    shape(plan.moving, 'path',
      { class: 'moving-sag', d: path(g.sag.map((p) => [plan.X(p[0]), y0 + p[1] * size.sag])) });
  }
  for (const g of shown.girders) {
    const y0 = plan.Y(data.bridge.lines[g.line].y), most = g.most;
    if (Math.abs(most[1] * size.moment) > 7) {
      shape(plan.moving, 'text', { class: 'moving-number middle', x: plan.X(most[0]),
        y: y0 + most[1] * size.moment + (most[1] > 0 ? 12 : -4) }, shown.write.moment(most[1]));
    }
  }
}

// Middles of labels at least `gap` apart, as near as that lets them be to the ascending places where they are wanted.
function spread(wanted, gap) {
  const groups = [];
  for (const middle of wanted) {
    let group = { middle, count: 1 };
    for (let last = groups[groups.length - 1];
      last && group.middle - last.middle < gap * (last.count + group.count) / 2; last = groups[groups.length - 1]) {
      const count = last.count + group.count;
      group = { middle: (last.middle * last.count + group.middle * group.count) / count, count };
      groups.pop();
    }
    groups.push(group);
  }
  return groups.flatMap((g) => Array.from({ length: g.count }, (_, i) => g.middle + gap * (i - (g.count - 1) / 2)));
}

// Numbers at an end of the bridge stand beside their bearings, one below the other; others above them.
function drawBearings(plan, data, shown) {
  const b = data.bridge, near = 0.03 * (b.x1 - b.x0);
  const sides = { end: [], '': [], middle: [] };
  for (const p of shown.bearings) {
    shape(plan.moving, 'circle',
      { class: p.lifted ? 'moving-lifted' : 'moving-bearing', cx: plan.X(p.x), cy: plan.Y(p.y), r: 4 });
    sides[p.x < b.x0 + near ? 'end' : p.x > b.x1 - near ? '' : 'middle'].push(p);
  }
  for (const side of Object.keys(sides)) {
    const list = sides[side].sort((p, q) => p.y - q.y);
    const at = list.map((p) => plan.Y(p.y));
    const y = side === 'middle' ? at.map((v) => v - 8) : spread(at, 13).map((v) => v + 4);
    list.forEach((p, i) => shape(plan.moving, 'text', {
      class: 'moving-number ' + side + (p.lifted || p.pulled ? ' found' : ''),
      x: plan.X(p.x) + (side === 'end' ? -8 : side === '' ? 8 : 0), y: y[i]
    }, p.lifted ? 'off ' + p.opening : p.reaction));
  }
}

function drawTruck(plan, data, shown) {
  const wheels = shown.wheels;
  const xs = wheels.map((w) => w.x), ys = wheels.map((w) => w.y);
  const x0 = plan.X(Math.min(...xs)) - 9, x1 = plan.X(Math.max(...xs)) + 9;
  const y0 = plan.Y(Math.min(...ys)) - 8, y1 = plan.Y(Math.max(...ys)) + 8;
  const truck = shape(plan.moving, 'g', { class: 'moving-truck' });
  const front = shown.backward ? x0 : x1, nose = shown.backward ? -9 : 9, ym = (y0 + y1) / 2;
  shape(truck, 'path', { class: 'moving-body', d: 'M' + x0 + ' ' + y0 + 'H' + x1 + 'V' + y1 + 'H' + x0 + 'Z' +
    'M' + front + ' ' + (ym - 8) + 'l' + nose + ' 8l' + -nose + ' 8' });
  for (const axle of shown.axles) {
    shape(truck, 'path', { class: 'moving-axle', d: 'M' + plan.X(axle.x) + ' ' + plan.Y(axle.y0) + 'V' + plan.Y(axle.y1) });
    shape(truck, 'text', { class: 'moving-number middle', x: plan.X(axle.x), y: y0 - 3 }, axle.load);
  }
  const half = Math.max(0.127 * plan.scale, 3.5);
  for (const w of wheels) {
    shape(truck, 'rect', { class: 'moving-wheel', x: plan.X(w.x) - half, y: plan.Y(w.y) - half * 0.6 - 1,
      width: 2 * half, height: half * 1.2 + 2 });
  }
}

function drawCars(plan, data, shown) {
  const x = plan.X(data.bridge.x1) + 90;
  data.bridge.cars.forEach((car, i) => {
    const y = plan.Y((car.left + car.right) / 2);
    shape(plan.moving, 'text', { class: 'moving-name', x, y: y - 2 }, car.name);
    shape(plan.moving, 'text', { class: 'moving-share', x, y: y + 16 }, shown.share === null ? '' : shown.share[i]);
  });
  if (shown.x !== null) {
    shape(plan.moving, 'path', { class: 'moving-section',
      d: 'M' + plan.X(shown.x) + ' ' + (TOP - 12) + 'V' + (plan.height - 26) });
  }
}

function drawMoving(plan, data, shown, size) {
  plan.moving.textContent = '';
  drawCars(plan, data, shown);
  if (!shown.tips) {
    drawGirders(plan, data, shown, size);
  }
  drawTruck(plan, data, shown);
  if (!shown.tips) {
    drawBearings(plan, data, shown);
  }
}
