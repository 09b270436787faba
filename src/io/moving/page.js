// page.js - controls of the truck, what is said of it in words and tables, and its place in the address.

const wide = element(holder, 'div', { class: 'wide' });
const svg = document.createElementNS(SVG, 'svg');
svg.setAttribute('class', 'moving-plan');
svg.setAttribute('tabindex', '0');
svg.setAttribute('role', 'application');
svg.setAttribute('aria-label', 'Plan of the bridge with the truck on it. Arrow keys move the truck.');
svg.setAttribute('aria-describedby', 'moving-keys');
wide.appendChild(svg);
element(holder, 'p', { class: 'note', id: 'moving-keys' },
  'Drag the truck, or press where it is to go. Keys on the plan: arrows move it along and across, with shift five ' +
  'times as far; page up and page down farther along; home and end to either end.');
const legend = element(holder, 'p', { class: 'note' });

const form = element(holder, 'form', { class: 'moving-controls' });
form.addEventListener('submit', (event) => event.preventDefault());
function field_(id, label, name, attributes) {
  const box = element(form, 'div');
  element(box, 'label', { for: id }, label);
  const input = element(box, name, Object.assign({ id }, attributes));
  return { box, input };
}
const truck = field_('moving-truck', 'Vehicle', 'select', {}).input;
data.trucks.forEach((t, i) => element(truck, 'option', { value: i }, t.name));
const facing = field_('moving-facing', 'It drives towards', 'select', {}).input;
element(facing, 'option', { value: 'far' }, 'the far end');
element(facing, 'option', { value: 'near' }, 'the near end');
function slider(id, label, attributes) {
  const made = field_(id, label, 'input', Object.assign({ type: 'range', step: 'any' }, attributes));
  made.output = element(made.box, 'output', { for: id });
  return made;
}
const along_ = slider('moving-x', 'Front axle, along', {});
const across = slider('moving-y', 'Middle, across', {});

// The joints' factor on a scale of 0 to 1000, whose ends are none and rigid where these can be.
const LOW = data.none ? 30 : 0, HIGH = data.rigid ? 970 : 1000;
const toFactor = (s) => (data.none && s < LOW / 2 ? 0 : data.rigid && s > (HIGH + 1000) / 2 ? Infinity
  : data.least * Math.pow(data.most / data.least, clamp((s - LOW) / (HIGH - LOW), 0, 1)));
const toScale = (k) => (k === 0 ? 0 : k === Infinity ? 1000
  : LOW + (HIGH - LOW) * Math.log(k / data.least) / Math.log(data.most / data.least));
let joint = null;
if (data.still === '') {
  joint = slider('moving-joint', 'Stiffness of the joints', { min: 0, max: 1000, list: 'moving-described', step: 1 });
  const list = element(joint.box, 'datalist', { id: 'moving-described' });
  element(list, 'option', { value: Math.round(toScale(1)), label: 'as described' });
  const mark = element(joint.box, 'span', { class: 'moving-mark', 'aria-hidden': 'true' }, '\u25b2 as described');
  // A slider's thumb keeps within it by half its width.
  mark.style.marginLeft = 'calc(' + (toScale(1) / 10).toFixed(1) + '% + ' + (8 - 0.016 * toScale(1)).toFixed(1) +
    'px - .35rem)';
  const back = element(joint.box, 'button', { type: 'button' }, 'As described');
  back.addEventListener('click', () => { state.k = 1; changed(); });
} else {
  element(form, 'p', { class: 'note' }, data.still);
}

const words = element(holder, 'p', { class: 'said', id: 'moving-said' });
const spoken = element(holder, 'p', { class: 'unseen', 'aria-live': 'polite' });

function table(caption, heads) {
  const sheet = element(element(holder, 'div', { class: 'sheet' }), 'div', { class: 'wide' });
  const made = element(sheet, 'table', { class: 'rows' });
  element(made, 'caption', {}, caption);
  const row = element(element(made, 'thead'), 'tr');
  heads.forEach((h, i) => {
    const cell = element(row, 'th', { scope: 'col', class: i > 0 ? 'n' : '' }, h[0]);
    if (h[1]) {
      element(cell, 'span', { class: 'unit' }, h[1]);
    }
  });
  return element(made, 'tbody');
}

function fill(body, rows) {
  body.textContent = '';
  for (const cells of rows) {
    const row = element(body, 'tr');
    cells.forEach((c, i) => element(row, i === 0 ? 'th' : 'td', i === 0 ? { scope: 'row' } : { class: 'n' }, c));
  }
}

const girders = table('What the truck adds, girder by girder', [['girder'], ['largest moment', unit.moment.name],
  ['at x', unit.length.name], ['deflection', unit.small.name], ['at x', unit.length.name]]);
const bearings = table('Bearings with the dead load on', [['bearing'], ['in all', unit.force.name],
  ['dead load', unit.force.name], ['truck', unit.force.name], ['opening', unit.small.name]]);
const lineName = (l) => b.lines[l].name + ', ' + b.cars[b.lines[l].car].name;
const details = element(holder, 'details', {});
element(details, 'summary', {}, 'The truck\u2019s moment and deflection at every section');
const sections = { moment: null, sag: null };

/* ---- showing -------------------------------------------------------------------------------------------- */

let plan = null, sizes = null, later = 0, grip = null;

function layout() {
  const width = Math.max(Math.floor(wide.clientWidth), 620);
  plan = drawPlan(svg, data, width);
  const ys = Array.from(new Set(m.reading.filter((r) => r[0] === MOMENT).map((r) => b.lines[r[1]].y)))
    .sort((p, q) => p - q);
  let apart = 0;
  for (let i = 1; i < ys.length; i++) {
    apart = Math.max(apart, ys[i] - ys[i - 1]);
  }
  const tall = (apart > 0 ? apart : 1.2) * plan.scale;
  sizes = { moment: 0.85 * tall / most.moment, sag: 0.7 * tall / most.sag };
  legend.textContent = 'Solid with hatching: moment that the truck adds in each girder, drawn from its line, sagging ' +
    'downwards; numbers are the largest in ' + unit.moment.name + '. Dashed: its deflected shape, drawn ' +
    significant(sizes.sag / plan.scale, 2) + ' times as large as it is. At bearings: reaction in ' + unit.force.name +
    ' with the dead load on, or by how much it has lifted off. At cars: share of the moment at the dotted section.';
}

function say(shown) {
  const t = data.trucks[state.truck];
  const said = [t.name + ', front axle ' + place(state.x) + ' from the near end, its middle ' + place(state.y) +
    ' from the left edge, driving towards the ' + (state.backward ? 'near' : 'far') + ' end' +
    (joint === null ? '' : '; joints ' + factorWords(state.k)) + '.'];
  if (!shown.stands) {
    return said.concat(['With joints of that stiffness the bridge does not stand: nothing is shown.']).join(' ');
  }
  if (shown.tips) {
    return said.concat(['The load tips the bridge off its bearings: whichever of them lift, another one would have ' +
      'to pull. Nothing is shown.']).join(' ');
  }
  if (shown.share !== null) {
    said.push('At x = ' + place(shown.x) + ', where the moment of all lines is largest, ' +
      b.cars.map((c, i) => c.name + ' has ' + shown.share[i]).join(', ') + ' of it.');
  } else {
    said.push('The truck is not on the bridge, or hardly.');
  }
  const most_ = shown.girders.reduce((p, g) => (Math.abs(g.most[1]) > Math.abs(p.most[1]) ? g : p), shown.girders[0]);
  said.push('Largest moment at the sections shown: ' + write.moment(most_.most[1]) + ' ' + unit.moment.name + ' in ' +
    lineName(most_.line) + ' at ' + place(most_.most[0]) + '.');
  const off = shown.bearings.filter((p) => p.lifted), edge = shown.bearings.filter((p) => p.edge);
  const pulled = shown.bearings.filter((p) => p.pulled);
  said.push(off.length > 0 ? 'Lifted off: ' + off.map((p) => p.name + ' (' + p.opening + ')').join('; ') + '.'
    : 'No bearing has lifted off.');
  if (edge.length > 0) {
    said.push('On one edge of the pad only: ' + edge.map((p) => p.name).join('; ') + '.');
  }
  if (pulled.length > 0) {
    said.push('Pulled, as two-way bearings may be: ' + pulled.map((p) => p.name).join('; ') + '.');
  }
  return said.join(' ');
}

function factorWords(k) {
  if (k === 0 || k === Infinity) {
    return k === 0 ? 'without any stiffness' : 'rigid';
  }
  const much = k === 1 ? 'as described' : significant(k, 3) + ' times as stiff as described';
  return data.joints.length === 0 ? much : much + ' (' + data.joints.map((j) =>
    j.name + ' ' + significant(k * j.stiffness / j.unit.si, 3) + ' ' + j.unit.name).join(', ') + ')';
}

function fillTables(shown) {
  fill(girders, shown.girders.map((g) => [lineName(g.line), write.moment(g.most[1]),
    fixed(g.most[0] / unit.length.si, unit.length.decimals), write.sag(g.deepest[1]),
    fixed(g.deepest[0] / unit.length.si, unit.length.decimals)]));
  fill(bearings, shown.tips ? [] : shown.bearings.map((p) => [p.name, p.reaction, p.dead, p.live,
    p.lifted || p.edge ? p.opening.split(' ')[0] : '']));
  for (const key of ['moment', 'sag']) {
    if (sections[key] === null && shown.girders.length > 0) {
      const at = table(key === 'moment' ? 'Moment' : 'Deflection', [['x', unit.length.name]].concat(
        shown.girders.map((g) => [lineName(g.line), key === 'moment' ? unit.moment.name : unit.small.name])));
      details.appendChild(at.closest('.sheet'));
      sections[key] = at;
    }
    const xs = Array.from(new Set([].concat(...shown.girders.map((g) => g[key].map((p) => p[0]))))).sort((p, q) => p - q);
    if (sections[key] !== null) {
      fill(sections[key], xs.map((x) => [fixed(x / unit.length.si, 2)].concat(shown.girders.map((g) => {
        const p = g[key].find((q) => q[0] === x);
        return p === undefined ? '' : write[key](p[1]);
      }))));
    }
  }
}

function show() {
  const t = data.trucks[state.truck], span = room(t, state.backward);
  state.x = clamp(state.x, span.low, span.high);
  state.y = clamp(state.y, t.low, t.high);
  along_.input.min = span.low / unit.length.si;
  along_.input.max = span.high / unit.length.si;
  along_.input.value = state.x / unit.length.si;
  along_.output.textContent = place(state.x);
  across.input.min = t.low / unit.length.si;
  across.input.max = t.high / unit.length.si;
  across.input.value = state.y / unit.length.si;
  across.output.textContent = place(state.y);
  along_.input.setAttribute('aria-valuetext', along_.output.textContent + ' from the near end');
  across.input.setAttribute('aria-valuetext', across.output.textContent + ' from the left edge');
  truck.value = state.truck;
  facing.value = state.backward ? 'near' : 'far';
  if (joint !== null) {
    joint.input.value = toScale(state.k);
    joint.output.textContent = factorWords(state.k);
    joint.input.setAttribute('aria-valuetext', joint.output.textContent);
  }
  const shown = look();
  if (grip === null && wide.scrollWidth > wide.clientWidth) {
    const middle = plan.X((Math.min(...shown.wheels.map((w) => w.x)) + Math.max(...shown.wheels.map((w) => w.x))) / 2);
    wide.scrollLeft = middle - wide.clientWidth / 2;
  }
  drawMoving(plan, data, shown, sizes);
  words.textContent = say(shown);
  fillTables(shown);
  return words.textContent;
}

// A place in the address, so that it can be kept: #truck=HS20-44&x=30&y=9&drives=far&joint=1
function remember() {
  const at = 'truck=' + encodeURIComponent(data.trucks[state.truck].name) + '&x=' +
    fixed(state.x / unit.length.si, 3) + '&y=' + fixed(state.y / unit.length.si, 3) + '&drives=' +
    (state.backward ? 'near' : 'far') + (joint === null ? '' : '&joint=' +
    (state.k === 0 ? 'none' : state.k === Infinity ? 'rigid' : significant(state.k, 6)));
  try {
    history.replaceState(null, '', '#' + at);
  } catch (refused) {
    // Some browsers keep the address of a file as it is.
  }
}

function recall() {
  const asked = new URLSearchParams(location.hash.slice(1));
  if (!asked.has('truck')) {
    return false;
  }
  const number = (key, otherwise) => {
    const value = parseFloat(asked.get(key));
    return Number.isFinite(value) ? value * unit.length.si : otherwise;
  };
  state.truck = Math.max(0, data.trucks.findIndex((t) => t.name === asked.get('truck')));
  state.backward = asked.get('drives') === 'near';
  state.x = number('x', state.x);
  state.y = number('y', state.y);
  const k = asked.get('joint');
  if (joint !== null && k !== null) {
    const value = k === 'none' ? 0 : k === 'rigid' ? Infinity : parseFloat(k);
    if (value === 0 ? data.none : value === Infinity ? data.rigid : value > 0) {
      state.k = value === 0 || value === Infinity ? value : clamp(value, data.least, data.most);
    }
  }
  return true;
}

function changed() {
  const said = show();
  clearTimeout(later);
  later = setTimeout(() => {
    spoken.textContent = said;
    remember();
  }, 400);
}

/* ---- moving --------------------------------------------------------------------------------------------- */

function turn(backward) {
  if (backward !== state.backward) {
    const long = data.trucks[state.truck].spacing.reduce((sum, s) => sum + s, 0);
    state.x += backward ? -long : long;
    state.backward = backward;
  }
}
truck.addEventListener('change', () => { state.truck = Number(truck.value); changed(); });
facing.addEventListener('change', () => { turn(facing.value === 'near'); changed(); });
along_.input.addEventListener('input', () => { state.x = along_.input.value * unit.length.si; changed(); });
across.input.addEventListener('input', () => { state.y = across.input.value * unit.length.si; changed(); });
if (joint !== null) {
  joint.input.addEventListener('input', () => {
    const s = Number(joint.input.value);
    state.k = Math.abs(s - toScale(1)) <= 5 ? 1 : toFactor(s);
    changed();
  });
}

const pointed = (event) => {
  const box = svg.getBoundingClientRect();
  return { x: plan.toX((event.clientX - box.left) * plan.width / box.width),
    y: plan.toY((event.clientY - box.top) * plan.height / box.height) };
};
svg.addEventListener('pointerdown', (event) => {
  const at = pointed(event);
  if (event.target.closest('.moving-truck') === null) {
    const long = data.trucks[state.truck].spacing.reduce((sum, s) => sum + s, 0);
    state.x = at.x + (state.backward ? -long / 2 : long / 2);
    state.y = at.y;
    changed();
  }
  grip = { x: state.x - at.x, y: state.y - at.y };
  svg.setPointerCapture(event.pointerId);
  svg.focus({ preventScroll: true });
});
svg.addEventListener('pointermove', (event) => {
  if (grip !== null) {
    const at = pointed(event);
    state.x = at.x + grip.x;
    state.y = at.y + grip.y;
    changed();
  }
});
for (const end of ['pointerup', 'pointercancel']) {
  svg.addEventListener(end, () => { grip = null; });
}
svg.addEventListener('keydown', (event) => {
  const often = event.shiftKey ? 5 : 1, step = data.step;
  const span = room(data.trucks[state.truck], state.backward);
  const moves = {
    ArrowLeft: () => { state.x -= often * step.along; }, ArrowRight: () => { state.x += often * step.along; },
    ArrowUp: () => { state.y -= often * step.across; }, ArrowDown: () => { state.y += often * step.across; },
    PageUp: () => { state.x -= 10 * step.along; }, PageDown: () => { state.x += 10 * step.along; },
    Home: () => { state.x = span.low; }, End: () => { state.x = span.high; }
  };
  if (moves[event.key] !== undefined && !event.ctrlKey && !event.altKey && !event.metaKey) {
    event.preventDefault();
    moves[event.key]();
    changed();
  }
});
window.addEventListener('resize', () => { layout(); show(); });
window.addEventListener('hashchange', () => {
  if (recall()) {
    changed();
  }
});

/* ---- beginning ------------------------------------------------------------------------------------------ */

holder.hidden = false;
const long = data.trucks[0].spacing.reduce((sum, s) => sum + s, 0);
state.x = (b.x0 + b.x1 + long) / 2;
state.y = data.trucks[0].low + 0.25 * (data.trucks[0].high - data.trucks[0].low);
recall();
layout();
show();
