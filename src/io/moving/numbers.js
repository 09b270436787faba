// numbers.js - where the truck is, and all that is shown of it there.

const holder = document.getElementById('moving');
const data = JSON.parse(document.getElementById('moving-data').textContent);
const m = unpack(data);
const unit = data.units, b = data.bridge;

function element(parent, name, attributes, text) {
  const node = document.createElement(name);
  for (const key of Object.keys(attributes || {})) {
    node.setAttribute(key, attributes[key]);
  }
  if (text !== undefined) {
    node.textContent = text;
  }
  parent.appendChild(node);
  return node;
}

const clamp = (value, low, high) => Math.min(Math.max(value, low), high);
const significant = (value, digits) =>
  value === 0 ? '0' : value.toFixed(clamp(digits - 1 - Math.floor(Math.log10(Math.abs(value))), 0, 12));
// "-0.0" is no number.
const fixed = (value, decimals) => value.toFixed(decimals).replace(/^-(0(\.0*)?)$/, '$1');
const decimalsOf = (largest) => clamp(2 - Math.floor(Math.log10(largest > 0 ? largest : 1)), 0, 9);
const place = (x) => fixed(x / unit.length.si, unit.length.decimals) + ' ' + unit.length.name;

const state = { truck: 0, backward: false, x: 0, y: 0, k: 1 };

/* ---- numbers -------------------------------------------------------------------------------------------- */

function axlesOf(truck, at) {
  let behind = 0;
  return truck.axles.map((a, i) => {
    const x = at.backward ? at.x + behind : at.x - behind;
    behind += truck.spacing[i];
    return { x, P: a, gauge: truck.gauge[i], y0: at.y - truck.gauge[i] / 2, y1: at.y + truck.gauge[i] / 2 };
  });
}

function wheelsOf(axles, y) {
  const wheels = [];
  for (const a of axles) {
    if (a.gauge > 0) {
      wheels.push({ x: a.x, y: a.y0, P: a.P / 2 }, { x: a.x, y: a.y1, P: a.P / 2 });
    } else {
      wheels.push({ x: a.x, y, P: a.P });
    }
  }
  return wheels;
}

function room(truck, backward) {
  const long = truck.spacing.reduce((sum, s) => sum + s, 0);
  return { low: backward ? b.x0 - long : b.x0, high: backward ? b.x1 : b.x1 + long };
}

let stand = null, standingAt = null;
function standAt(k) {
  if (standingAt !== k) {
    stand = standing(m, k);
    standingAt = k;
  }
  return stand;
}

// What numbers are printed with, and the scale of the drawing: from the heaviest that each truck does along its
// room, at a third and two thirds of the width, by the joints as described.
function measure() {
  const most = { moment: 0, sag: 0, reaction: 0 };
  const at = standAt(1);
  for (const truck of data.trucks) {
    for (let i = 0; i < 16 && at !== null; i++) {
      const span = room(truck, false);
      const where = { backward: false, x: span.low + (i + 0.5) / 16 * (span.high - span.low),
        y: truck.low + (i % 2 === 0 ? 0.2 : 0.8) * (truck.high - truck.low) };
      const found = under(m, at, wheelsOf(axlesOf(truck, where), where.y));
      m.reading.forEach((r, j) => {
        const value = found === null ? 0 : Math.abs(r[0] === 0 ? found.r[j] : found.live[j]);
        const key = ['reaction', 'moment', 'sag'][r[0]];
        if (key !== undefined && !(r[0] === 0 && m.support[j].slope)) {
          most[key] = Math.max(most[key], value);
        }
      });
    }
  }
  return most;
}

const most = measure();
const decimals = {
  moment: decimalsOf(most.moment / unit.moment.si), sag: decimalsOf(most.sag / unit.small.si),
  reaction: decimalsOf(most.reaction / unit.force.si)
};
const write = {
  moment: (v) => fixed(v / unit.moment.si, decimals.moment),
  sag: (v) => fixed(v / unit.small.si, decimals.sag),
  reaction: (v) => fixed(v / unit.force.si, decimals.reaction)
};

// Everything that is shown of the present state.
function look() {
  const truck = data.trucks[state.truck];
  const axles = axlesOf(truck, state), wheels = wheelsOf(axles, state.y);
  const at = standAt(state.k);
  const found = at === null ? null : under(m, at, wheels);
  const shown = { tips: found === null, stands: at !== null, wheels, backward: state.backward, write, share: null,
    x: null, girders: [], bearings: [],
    axles: axles.map((a) => ({ x: a.x, y0: a.y0, y1: a.y1, load: significant(a.P / unit.force.si, 3) })) };
  if (found === null) {
    return shown;
  }
  const girder = new Map(), car = new Map();
  m.reading.forEach((r, i) => {
    const x = m.section[r[2]];
    if (r[0] === MOMENT || r[0] === DEFLECTION) {
      if (!girder.has(r[1])) {
        girder.set(r[1], { line: r[1], moment: [], sag: [], most: [x, 0], deepest: [x, 0] });
      }
      const g = girder.get(r[1]), key = r[0] === MOMENT ? 'most' : 'deepest';
      (r[0] === MOMENT ? g.moment : g.sag).push([x, found.live[i]]);
      if (Math.abs(found.live[i]) > Math.abs(g[key][1])) {
        g[key] = [x, found.live[i]];
      }
    } else if (r[0] === CAR) {
      if (!car.has(r[2])) {
        car.set(r[2], b.cars.map(() => 0));
      }
      car.get(r[2])[r[1]] = found.live[i];
    }
  });
  shown.girders = Array.from(girder.values()).sort((p, q) => p.line - q.line);
  let total = 0;
  car.forEach((values, section) => {
    const sum = values.reduce((s, v) => s + v, 0);
    if (Math.abs(sum) > Math.abs(total)) {
      total = sum;
      shown.x = m.section[section];
      shown.share = values.map((v) => v);
    }
  });
  if (shown.share !== null && Math.abs(total) > 1e-3 * most.moment) {
    shown.share = shown.share.map((v) => fixed(100 * v / total, 1) + ' %');
  } else {
    shown.share = shown.x = null;
  }
  shown.bearings = b.bearings.map((p, i) => bearing(p, i, found, at));
  return shown;
}

function bearing(p, index, found, at) {
  const of = [];
  m.support.forEach((s, i) => {
    if (s.bearing === index && !s.slope) {
      of.push(i);
    }
  });
  const sum = (r) => of.reduce((total, i) => total + r[i], 0);
  const off = of.filter((i) => m.support[i].contact && found.u[i] > 2e-6);
  const reaction = sum(found.r);
  return {
    name: p.name, x: p.x, y: p.y, lifted: of.length > 0 && off.length === of.length,
    edge: off.length > 0 && off.length < of.length, pulled: reaction < -1e-6 * most.reaction,
    opening: fixed(Math.max(0, ...off.map((i) => found.u[i])) / unit.small.si, decimals.sag) + ' ' + unit.small.name,
    reaction: write.reaction(reaction), dead: write.reaction(sum(at.state.r)),
    live: write.reaction(reaction - sum(at.state.r))
  };
}
