// sums.js - the data of the page unpacked, and what a truck does as sums over them.

const decode = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0)).buffer;
const doubles = (text) => Array.from(new Float64Array(decode(text)));

// Numbers in 16 bits, row by row of readings beyond the supports, with units for each column and kind of reading.
const scaled = (block, columns, readings) => {
  const unit = doubles(block.unit);
  const number = new Int16Array(decode(block.number));
  return Array.from(number, (n, i) => n * unit[readings[Math.floor(i / columns)][0] * columns + i % columns]);
};

const MOMENT = 1, DEFLECTION = 2, CAR = 3;

// Everything that does not change; see the header of the library that tells how it is packed.
function unpack(data) {
  const m = {
    along: data.along, rail: doubles(data.rail), place: doubles(data.place), section: data.section,
    support: data.support, contact: data.contact, reading: data.reading, modes: data.modes,
    l: doubles(data.l), t1: data.t1
  };
  const supports = m.support.length, loads = 1 + supports, readings = m.reading.length;
  const rest = data.reading.slice(supports);
  m.loads = loads;
  m.value = Array.from(new Float32Array(decode(data.support_value)))
    .concat(scaled(data.value, loads, rest));
  m.a = Array.from(new Float32Array(decode(data.support_a))).concat(scaled(data.a, m.modes, rest));
  m.h = new Float64Array(decode(data.h));
  const byte = new Uint8Array(decode(data.curves)), unit = doubles(data.unit);
  let at = 0;
  const number = () => {
    let sum = 0, scale = 1, b;
    do {
      b = byte[at++];
      sum += scale * (b & 127);
      scale *= 128;
    } while (b > 127);
    return sum % 2 === 0 ? sum / 2 : -(sum + 1) / 2;
  };
  m.curve = [];
  for (let f = 0; f < readings + m.modes; f++) {
    for (let rail = 0; rail < m.rail.length; rail++) {
      const curve = [];
      let place = 0, v = 0, d = 0;
      do {
        const next = place + number();
        const lead = Math.floor(v + d * (m.place[next] - m.place[place]) * unit[2 * f + 1] / unit[2 * f] + 0.5);
        v = lead + number();
        d += number();
        place = next;
        curve.push(m.place[place], v * unit[2 * f], d * unit[2 * f + 1]);
      } while (place + 1 < m.place.length);
      m.curve.push(curve);
    }
  }
  return m;
}

// A cubic between two knots; at a knot of two sides the one after it.
function along(curve, at) {
  const last = curve.length - 3;
  if (at < curve[0] || at > curve[last]) {
    return 0;
  }
  let i = 0;
  while (i + 3 < last && curve[i + 3] <= at) {
    i += 3;
  }
  const h = curve[i + 3] - curve[i], t = (at - curve[i]) / h, r = 1 - t;
  return r * r * (1 + 2 * t) * curve[i + 1] + t * t * (1 + 2 * r) * curve[i + 4] +
    h * t * r * (r * curve[i + 2] - t * curve[i + 5]);
}

// The two rails beside a wheel, and how far it is from one to the other; null where there is no deck.
function between(m, wheel) {
  const across = m.along ? wheel.x : wheel.y;
  for (let i = 0; i + 1 < m.rail.length; i++) {
    if (m.rail[i + 1] > m.rail[i] && across >= m.rail[i] && across <= m.rail[i + 1]) {
      return { rail: i, t: (across - m.rail[i]) / (m.rail[i + 1] - m.rail[i]) };
    }
  }
  return null;
}

function field(m, f, wheels) {
  const first = f * m.rail.length;
  let sum = 0;
  for (const w of wheels) {
    if (w.at) {
      const place = m.along ? w.y : w.x;
      sum += w.P * ((1 - w.at.t) * along(m.curve[first + w.at.rail], place) +
        w.at.t * along(m.curve[first + w.at.rail + 1], place));
    }
  }
  return sum;
}

// w = q + M z with w, z >= 0 and w.z = 0, M positive semidefinite, by Lemke's path. null: there is no such z.
function complement(n, M, q) {
  const unit = [];
  for (let i = 0; i < n; i++) {
    unit.push(M[i * n + i] > 0 ? 1 / Math.sqrt(M[i * n + i]) : 1);
  }
  const z = new Array(n).fill(0);
  let worst = -1;
  for (let i = 0; i < n; i++) {
    worst = q[i] * unit[i] < (worst < 0 ? 0 : q[worst] * unit[worst]) ? i : worst;
  }
  if (worst < 0) {
    return z;
  }
  // Columns: w, z, the artificial variable, right-hand side.
  const width = 2 * n + 2, T = [];
  const basis = [];
  for (let i = 0; i < n; i++) {
    const row = new Float64Array(width);
    row[i] = 1;
    for (let j = 0; j < n; j++) {
      row[n + j] = -M[i * n + j] * unit[i] * unit[j];
    }
    row[2 * n] = -1;
    row[2 * n + 1] = q[i] * unit[i];
    T.push(row);
    basis.push(i);
  }
  const pivot = (r, c) => {
    const by = T[r][c];
    for (let k = 0; k < width; k++) {
      T[r][k] /= by;
    }
    for (let i = 0; i < n; i++) {
      const factor = T[i][c];
      for (let k = 0; i !== r && factor !== 0 && k < width; k++) {
        T[i][k] -= factor * T[r][k];
      }
    }
    const left = basis[r];
    basis[r] = c;
    return left;
  };
  let left = pivot(worst, 2 * n);
  for (let step = 0; step < 60 * n + 100; step++) {
    const enters = left < n ? left + n : left - n;
    let row = -1, least = Infinity;
    for (let i = 0; i < n; i++) {
      if (T[i][enters] > 1e-11) {
        const ratio = T[i][2 * n + 1] / T[i][enters];
        const same = row >= 0 && Math.abs(ratio - least) <= 1e-12 * Math.abs(least);
        const better = same ? basis[i] === 2 * n || (basis[row] !== 2 * n && T[i][enters] > T[row][enters])
          : ratio < least;
        if (better) {
          row = i;
          least = Math.min(ratio, least);
        }
      }
    }
    if (row < 0) {
      return null;
    }
    left = pivot(row, enters);
    if (left === 2 * n) {
      for (let i = 0; i < n; i++) {
        if (basis[i] >= n && basis[i] < 2 * n) {
          z[basis[i] - n] = Math.max(T[i][2 * n + 1], 0) * unit[basis[i] - n];
        }
      }
      return z;
    }
  }
  return null;
}

// x = A^-1 x by elimination with pivots.
function solve(n, A, x) {
  for (let i = 0; i < n; i++) {
    let p = i;
    for (let r = i + 1; r < n; r++) {
      p = Math.abs(A[r][i]) > Math.abs(A[p][i]) ? r : p;
    }
    [A[i], A[p]] = [A[p], A[i]];
    [x[i], x[p]] = [x[p], x[i]];
    for (let r = i + 1; r < n; r++) {
      const f = A[r][i] / A[i][i];
      for (let c = i; c < n; c++) {
        A[r][c] -= f * A[i][c];
      }
      x[r] -= f * x[i];
    }
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let c = i + 1; c < n; c++) {
      x[i] -= A[i][c] * x[c];
    }
    x[i] /= A[i][i];
  }
  return x;
}

// Reactions and openings of all supports: r = r0 + S u. null: the load tips the bridge.
function contact(m, S, r0) {
  const n = m.contact, all = m.support.length;
  const scale = r0.reduce((sum, r) => sum + Math.abs(r), 0);
  const M = new Float64Array(n * n), q = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    q[i] = Math.abs(r0[i]) <= 1e-7 * scale ? 0 : r0[i];
    for (let j = 0; j < n; j++) {
      M[i * n + j] = (S[i * all + j] + S[j * all + i]) / 2;
    }
  }
  const u = complement(n, M, q);
  if (u === null) {
    return null;
  }
  const r = r0.map((value, i) => {
    let sum = value;
    for (let j = 0; j < n; j++) {
      sum += S[i * all + j] * u[j];
    }
    return i >= n ? sum : u[i] > 0 ? 0 : Math.max(sum, 0);
  });
  return { r, u: r0.map((value, i) => (i < n ? u[i] : 0)) };
}

// A reading under a load that does not move.
function still(m, w, reading, load) {
  let sum = m.value[reading * m.loads + load];
  for (let j = 0; j < m.modes; j++) {
    sum += m.a[reading * m.modes + j] * w[j] * m.h[j * m.loads + load];
  }
  return sum;
}

// Where bearings with a gap and those placed later stand: they are opened until they carry nothing of the dead
// load, while the others may lift.
function seats(m, S, r0) {
  const all = m.support.length, seat = m.support.map((s) => s.seat), late = [];
  m.support.forEach((s, i) => {
    if (s.late) {
      late.push(i);
    }
  });
  const out = (right) => solve(late.length, late.map((i) => late.map((j) => S[i * all + j])), right);
  if (late.length === 0) {
    return seat;
  }
  const without = new Float64Array(all * all), column = (get) => {
    const x = out(late.map((i) => -get(i)));
    return m.support.map((s, i) => get(i) + late.reduce((sum, l, k) => sum + S[i * all + l] * x[k], 0));
  };
  const base = column((i) => r0[i]);
  for (let j = 0; j < all; j++) {
    column((i) => S[i * all + j]).forEach((value, i) => {
      without[i * all + j] = value;
    });
  }
  for (const l of late) {
    base[l] = 1;
    for (let i = 0; i < all; i++) {
      without[i * all + l] = without[l * all + i] = 0;
    }
    without[l * all + l] = 1;
  }
  const found = contact(m, without, base);
  if (found === null) {
    return null;
  }
  const open = out(late.map((i) => -r0[i] - found.u.reduce((sum, u, j) => sum + S[i * all + j] * u, 0)));
  late.forEach((l, k) => {
    seat[l] -= open[k];
  });
  return seat;
}

// The bridge under its dead load with joints k times as stiff as described. null: it does not stand.
function standing(m, k) {
  const t = k * m.t1, all = m.support.length;
  const w = m.l.slice(0, m.modes).map((l) => {
    if (l === 0) {
      return t - m.t1;
    }
    return (k === Infinity ? 0 : 1 / (1 - l + l * t)) - 1 / (1 - l + l * m.t1);
  });
  const S = new Float64Array(all * all);
  let dead = m.support.map((s, i) => still(m, w, i, 0));
  for (let i = 0; i < all; i++) {
    for (let j = 0; j < all; j++) {
      S[i * all + j] = still(m, w, i, 1 + j);
    }
  }
  const seat = seats(m, S, dead);
  if (seat === null) {
    return null;
  }
  dead = dead.map((r, i) => r - seat.reduce((sum, s, j) => sum + S[i * all + j] * s, 0));
  const state = contact(m, S, dead);
  if (state === null) {
    return null;
  }
  const opening = m.reading.map((reading, i) => {
    const row = [];
    for (let j = 0; j < m.contact; j++) {
      row.push(still(m, w, i, 1 + j));
    }
    return row;
  });
  return { w, S, dead, state, opening };
}

// What wheels add to the dead load, reading by reading, and the supports in all. null: they tip the bridge.
function under(m, stand, wheels) {
  const placed = wheels.map((w) => ({ x: w.x, y: w.y, P: w.P, at: between(m, w) }));
  const h = stand.w.map((weight, j) => weight * field(m, m.reading.length + j, placed));
  const live = m.reading.map((reading, i) => {
    let sum = field(m, i, placed);
    for (let j = 0; j < m.modes; j++) {
      sum += m.a[i * m.modes + j] * h[j];
    }
    return sum;
  });
  const state = contact(m, stand.S, stand.dead.map((r, i) => r + live[i]));
  if (state === null) {
    return null;
  }
  live.forEach((value, i) => {
    for (let j = 0; j < m.contact; j++) {
      live[i] += stand.opening[i][j] * (state.u[j] - stand.state.u[j]);
    }
  });
  return { live, r: state.r, u: state.u };
}
