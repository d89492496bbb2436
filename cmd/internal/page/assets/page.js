// The page works without this: it sends the form while one types, moves the
// press, and keeps the job over back and reload.
"use strict";
(() => {
const by = id => document.getElementById(id);
const form = by("job");
form.elements.have.disabled = false;

// What the form holds, as its names and values.
const named = () => [...form.elements].filter(e => e.name && !["hidden", "submit", "button"].includes(e.type));
const filled = () => Object.fromEntries(named().map(e => [e.name, e.type === "checkbox" ? (e.checked ? e.value : "") : e.value]));

// Fields that do not belong to the chosen shape are neither shown nor sent.
function shape() {
	const round = by("tube.shape").value === "round";
	for (const key of ["tube.width", "tube.depth", "tube.corner", "tube.diameter"]) {
		const field = by(key), off = (key === "tube.diameter") !== round;
		field.disabled = off;
		field.closest(".f").classList.toggle("off", off);
	}
}

const size = () => by("p-part").clientWidth < 420 ? "small" : "large";

const folds = () => by("work").querySelectorAll("details"); // what nobody sees is not drawn
function body() {
	const data = new URLSearchParams();
	for (const [k, v] of new FormData(form)) if (typeof v === "string") data.append(k, v);
	for (const e of named()) if (e.disabled) data.set(e.name, ""); // what is not shown is taken away
	data.set("view", size());
	data.set("folded", [...folds()].filter(d => !d.open).map(d => d.querySelector("[id]").id).join(" "));
	return data;
}

// Errors stand beside their field.
let wrong = [];
function mark(errors) {
	for (const name of wrong) {
		const e = by(name);
		if (e) e.removeAttribute("aria-invalid");
		const p = by("e-" + name);
		if (p) p.textContent = "";
	}
	wrong = [];
	for (const [name, text] of Object.entries(errors)) {
		const e = by(name), p = by("e-" + name);
		if (!e || !p) continue;
		wrong.push(name);
		e.setAttribute("aria-invalid", "true");
		p.textContent = text;
		const fold = e.closest("details");
		if (fold) fold.open = true;
	}
}
for (const e of document.querySelectorAll(".err")) if (e.textContent && e.id.startsWith("e-")) wrong.push(e.id.slice(2));

const say = text => { if (by("status").textContent !== text) by("status").textContent = text; };

function put(parts) {
	for (const [id, html] of Object.entries(parts)) {
		const at = by(id);
		if (!at) continue;
		const inside = at.contains(document.activeElement) && document.activeElement.id;
		const travel = id === "p-press" && by("travel") ? by("travel").value / by("travel").max : 1;
		at.innerHTML = html;
		if (id === "p-press") motion(travel);
		if (inside && by(inside)) by(inside).focus();
	}
}

// The latest answer wins: what is under way is given up, what comes late dropped.
let turn = 0, asking = null, later = 0, charting = null;
const root = document.documentElement; // says when the last change has its answer
root.dataset.settled = "true";
async function post(path, data, signal) {
	const r = await fetch(path, {method: "POST", body: data, signal});
	return r;
}
async function update(pause) {
	const mine = ++turn;
	root.dataset.settled = "false";
	clearTimeout(later);
	if (pause) await new Promise(done => { later = setTimeout(done, pause); });
	if (mine !== turn) return;
	if (asking) asking.abort();
	if (charting) charting.abort();
	asking = new AbortController();
	keep();
	try {
		const r = await post("update", body(), asking.signal);
		if (mine !== turn) return;
		if (r.status === 503) return void update(400);
		const got = r.headers.get("Content-Type").includes("json") ? await r.json() : {sentence: await r.text()};
		if (mine !== turn) return;
		if (r.status === 422) {
			mark({[got.field]: got.sentence});
			say(by("e-" + got.field) && by(got.field) ? label(got.field) + " is to be put right." : got.sentence);
			by("stale").textContent = "A field is to be put right. What is shown is the last job that could be worked out.";
			by("stale").hidden = false;
			by("work").classList.add("wait");
			return;
		}
		if (!r.ok) return say(got.sentence);
		by("stale").hidden = true;
		by("stale").textContent = "";
		by("work").classList.remove("wait");
		mark(got.marks);
		put(got.parts);
		for (const e of document.querySelectorAll(".def")) {
			const text = got.defaults[e.id.slice(2)];
			e.textContent = text ? " Left out: " + text + "." : "";
		}
		form.elements.have.value = got.have;
		form.elements.good.value = got.good;
		by("job-name").textContent = got.title;
		document.title = got.title + " - overbend";
		say("Worked out.");
		keep();
		chart();
	} catch (e) {
		if (e.name !== "AbortError" && mine === turn) say("The program does not answer. Is it still running?");
	} finally {
		if (mine === turn) root.dataset.settled = "true";
	}
}

const label = name => {
	const e = by(name), set = e.closest("fieldset");
	const one = e.labels && e.labels[0] ? e.labels[0].textContent : name;
	return set && set.querySelector("legend") ? set.querySelector("legend").textContent + ", " + one : one;
};

async function chart() {
	const mine = turn;
	if (charting) charting.abort();
	charting = new AbortController();
	by("p-chart").setAttribute("aria-busy", "true");
	try {
		const r = await post("chart", body(), charting.signal);
		if (r.ok && mine === turn) {
			put((await r.json()).parts);
			by("p-chart").removeAttribute("aria-busy");
		}
	} catch (e) { /* the next one comes */ }
}

// Back and reload keep the job: each entry of the history has its own.
const keep = () => history.replaceState({...history.state, job: filled(), base: form.elements.base.value, read: form.elements.read.value}, "");
function fill(values, base, read) {
	const trials = Math.max(-1, ...Object.keys(values).filter(k => /^trial\.\d+\./.test(k) && values[k]).map(k => +k.split(".")[1]));
	while (document.querySelectorAll(".trial").length < trials + 2) add();
	for (const e of named()) {
		const v = values[e.name] === undefined ? "" : String(values[e.name]);
		if (e.type === "checkbox") e.checked = v === "true";
		else if (e.type !== "file") {
			e.value = v;
			if (e.tagName === "SELECT" && e.selectedIndex < 0) e.selectedIndex = 0;
		}
	}
	form.elements.base.value = base;
	form.elements.read.value = read || "";
	origins();
	for (const fold of form.querySelectorAll("details")) if ([...fold.querySelectorAll("input:not([type=checkbox])")].some(e => e.value)) fold.open = true;
	shape();
}

// One more trial.
function add() {
	const all = document.querySelectorAll(".trial"), last = all[all.length - 1], n = all.length;
	const next = last.cloneNode(true);
	next.dataset.trial = n;
	next.querySelector("legend").textContent = "Trial " + (n + 1);
	for (const e of next.querySelectorAll("*")) for (const a of ["id", "name", "for", "aria-describedby"]) {
		const v = e.getAttribute(a);
		if (v) e.setAttribute(a, v.replace(/trial\.\d+\./g, "trial." + n + "."));
	}
	for (const e of next.querySelectorAll("input")) { e.value = ""; e.removeAttribute("aria-invalid"); }
	for (const e of next.querySelectorAll(".err")) e.textContent = "";
	last.after(next);
	return next;
}
by("add-trial").addEventListener("click", () => add().querySelector("input").focus());

// The press in motion.
let playing = 0;
function motion(share) {
	cancelAnimationFrame(playing);
	const box = document.querySelector(".motion");
	if (!box) return;
	const d = JSON.parse(box.dataset.motion), slider = by("travel"), out = box.querySelector("output"), play = box.querySelector(".play");
	const tube = by("m-tube"), strip = by("m-strip"), block = by("m-block"), reads = [...box.querySelectorAll(".reads .big")];
	const n = d.line[0].length / 3, mid = d.wide / 2;
	const lerp = (a, b, t) => a + (b - a) * t;
	const shape = (p, low, high) => {
		let left = "", right = "", back = "", rest = "";
		const pts = off => { const o = []; for (let i = 0; i < n; i++) o.push([p[3 * i] - off * Math.sin(p[3 * i + 2]), p[3 * i + 1] - off * Math.cos(p[3 * i + 2])]); return o; };
		const up = pts(high), dn = pts(low), at = (q, s) => (mid + s * q[0]).toFixed(2) + "," + q[1].toFixed(2) + " ";
		for (let i = n - 1; i > 0; i--) { left += at(up[i], -1); back += at(dn[i], 1); }
		for (let i = 0; i < n; i++) { right += at(up[i], 1); rest += at(dn[i], -1); }
		return "M" + left + right + back + rest + "Z";
	};
	const figure = (v, decimals) => decimals >= 0 ? v.toFixed(decimals) : v === 0 ? "0.00" : v.toFixed(Math.max(0, Math.min(2, 2 - Math.floor(Math.log10(Math.abs(v))))));
	const show = () => {
		const t = +slider.value;
		let i = 1;
		while (i < d.reads.length - 1 && d.reads[i][0] < t) i++;
		const a = d.reads[i - 1], b = d.reads[i], u = b[0] > a[0] ? Math.min(1, Math.max(0, (t - a[0]) / (b[0] - a[0]))) : 1;
		const line = d.line[i - 1].map((x, k) => lerp(x, d.line[i][k], u));
		strip.setAttribute("d", shape(line, -d.under, -d.deep));
		tube.setAttribute("d", shape(line, -d.deep, d.deep));
		block.setAttribute("transform", "translate(0," + (-lerp(d.up[i - 1], d.up[i], u)).toFixed(2) + ")");
		reads.forEach((e, k) => { e.textContent = figure(lerp(a[k + 1], b[k + 1], u), +e.dataset.decimals) + " " + e.dataset.unit; });
		// As a ram is read: to half a millimetre from ten on.
		out.textContent = (slider.dataset.unit === "in" ? t.toFixed(2) : (t < 10 ? t : Math.round(2 * t) / 2).toFixed(1)) + " " + slider.dataset.unit;
		slider.setAttribute("aria-valuetext", out.textContent);
	};
	slider.addEventListener("input", () => { stop(); show(); });
	slider.addEventListener("keydown", e => {
		const step = +slider.dataset.step * ({ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 10, PageDown: -10}[e.key] || 0);
		if (!step) return;
		e.preventDefault();
		stop();
		slider.value = Math.min(+slider.max, Math.max(0, +slider.value + step));
		show();
	});
	const stop = () => { cancelAnimationFrame(playing); playing = 0; play.setAttribute("aria-pressed", "false"); play.textContent = "Play"; };
	play.addEventListener("click", () => {
		if (playing) return stop();
		if (matchMedia("(prefers-reduced-motion: reduce)").matches) { // stop by stop instead
			const next = d.reads.map(r => r[0]).find(t => t > +slider.value + 1e-6);
			slider.value = next === undefined ? 0 : next;
			return show();
		}
		const from = +slider.value >= +slider.max - 1e-6 ? 0 : +slider.value, start = performance.now();
		play.setAttribute("aria-pressed", "true");
		play.textContent = "Stop";
		const tick = now => {
			slider.value = Math.min(+slider.max, from + Math.max(0, now - start) / 5000 * slider.max);
			show();
			if (+slider.value < +slider.max - 1e-6) playing = requestAnimationFrame(tick);
			else stop();
		};
		playing = requestAnimationFrame(tick);
	});
	slider.value = share * slider.max;
	show();
}

// Files: saved without leaving the page, with the answer's own sentence where
// there is none.
async function take(path, then) {
	by("take-error").textContent = "";
	try {
		const r = await post(path, body());
		if (r.ok) return then(r);
		const got = r.headers.get("Content-Type").includes("json") ? await r.json() : {sentence: await r.text()};
		if (got.field) mark({[got.field]: got.sentence});
		by("take-error").textContent = (got.key ? got.key + ": " : "") + got.sentence;
	} catch (e) { by("take-error").textContent = "The program does not answer. Is it still running?"; }
}
document.addEventListener("click", e => {
	const b = e.target.closest("button");
	if (!b) return;
	const path = b.getAttribute("formaction");
	if (b.classList.contains("pick")) {
		e.preventDefault();
		pick(b);
	} else if (path && path !== "print" && path !== "drawing") {
		e.preventDefault();
		take(path, async r => {
			const name = /filename="([^"]+)"/.exec(r.headers.get("Content-Disposition") || "");
			const a = document.createElement("a");
			a.href = URL.createObjectURL(await r.blob());
			a.download = name ? name[1] : path;
			a.click();
			setTimeout(() => URL.revokeObjectURL(a.href), 60000);
		});
	} else if (b.id === "list-files") {
		take("files", async r => put((await r.json()).parts));
	} else if (b.classList.contains("look")) {
		take("kit/" + b.dataset.file, async r => {
			const img = by("preview").querySelector("img");
			if (img.src) URL.revokeObjectURL(img.src);
			img.src = URL.createObjectURL(await r.blob());
			img.alt = b.dataset.name;
			by("preview").querySelector("figcaption").textContent = b.dataset.name;
			by("preview").hidden = false;
			img.onload = () => by("preview").scrollIntoView({block: "nearest"});
		});
	}
});

by("file").addEventListener("change", async () => {
	if (!by("file").files.length) return;
	const r = await post("open", new FormData(by("open-form")));
	const got = r.headers.get("Content-Type").includes("json") ? await r.json() : {sentence: await r.text()};
	by("e-file").textContent = r.ok ? "" : got.sentence;
	if (!r.ok) return;
	by("p-drawing").textContent = by("found").textContent = by("drawing").value = "";
	history.pushState({}, "");
	fill(got.values, got.base);
	update(0);
});

// What was read from a drawing is marked as long as it stands there.
function origins() {
	for (const p of document.querySelectorAll(".from")) p.textContent = "";
	for (const r of JSON.parse(form.elements.read.value || "[]")) {
		const e = by(r.n), p = by("f-" + r.n);
		if (e && p && r.f && e.value === r.v) p.textContent = r.f;
	}
}
function pick(b) {
	for (const x of document.querySelectorAll(".pick")) x.setAttribute("aria-pressed", x === b);
	for (const x of document.querySelectorAll(".hit")) x.classList.toggle("on", x.dataset.pick === b.dataset.pick);
	const read = JSON.parse(b.value).read;
	keep();
	history.pushState({}, "");
	for (const r of read) if (by(r.n)) {
		by(r.n).value = r.v;
		const fold = by(r.n).closest("details");
		if (fold && r.v) fold.open = true;
	}
	form.elements.read.value = JSON.stringify(read);
	origins();
	update(0);
}
let drawing = 0; // the latest drawing wins
async function readDrawing() {
	const file = by("drawing").files[0], mine = ++drawing;
	if (!file) return;
	if (file.size > +by("drawing").dataset.most) return mark({drawing: by("drawing").dataset.much});
	root.dataset.settled = "false";
	let settle = true;
	try {
		const r = await post("drawing.json", new FormData(form));
		const got = r.headers.get("Content-Type").includes("json") ? await r.json() : {sentence: await r.text()};
		if (mine !== drawing) return;
		mark(r.ok ? {} : {[got.field || "drawing"]: got.sentence});
		by("p-drawing").textContent = by("found").textContent = "";
		if (!r.ok) return say(got.sentence);
		put(got.parts);
		by("found").textContent = got.found;
		const only = document.querySelector(".pick[aria-pressed=true]");
		if (only) { settle = false; pick(only); }
	} catch (e) {
		say("The program does not answer. Is it still running?");
	} finally {
		if (settle && mine === drawing) root.dataset.settled = "true";
	}
}
for (const id of ["drawing", "drawing_unit", "drawing_layer"]) by(id).addEventListener("change", readDrawing);
document.addEventListener("click", e => {
	const hit = e.target.closest(".hit");
	if (hit) document.querySelector(`.pick[data-pick="${hit.dataset.pick}"]`).click();
});
// A file is dropped: the job file or a drawing.
for (const kind of ["dragenter", "dragover", "dragleave", "drop"]) document.addEventListener(kind, e => {
	if (!e.dataTransfer || ![...e.dataTransfer.types].includes("Files")) return;
	e.preventDefault();
	root.classList.toggle("drop", kind === "dragenter" || kind === "dragover");
	if (kind !== "drop" || !e.dataTransfer.files.length) return;
	const to = by(/\.toml$/i.test(e.dataTransfer.files[0].name) ? "file" : "drawing");
	to.files = e.dataTransfer.files;
	to.dispatchEvent(new Event("change"));
});

form.addEventListener("submit", e => { if (!e.submitter || e.submitter.getAttribute("formaction") !== "print") { e.preventDefault(); update(0); } });
document.addEventListener("input", e => {
	if (e.target.form !== form || e.target.type === "range") return;
	if (e.target.id === "tube.shape") shape();
	if (e.target.id === "over") return void chart();
	if (e.target.closest(".take, .file")) return;
	origins();
	update(60);
});
document.addEventListener("click", e => {
	const a = e.target.closest('a[href^="#"]');
	const to = a && by(decodeURIComponent(a.getAttribute("href").slice(1)));
	if (!to || !to.form) return;
	e.preventDefault();
	const fold = to.closest("details");
	if (fold) fold.open = true;
	to.focus();
});
for (const d of folds()) d.addEventListener("toggle", () => { if (d.open) update(0); });
addEventListener("popstate", e => { if (e.state && e.state.job) { fill(e.state.job, e.state.base, e.state.read); update(0); } });
let width = form.dataset.view, sized = 0;
addEventListener("resize", () => { clearTimeout(sized); sized = setTimeout(() => { if (size() !== width) { width = size(); update(0); } }, 200); });

shape();
if (history.state && history.state.job) { fill(history.state.job, history.state.base, history.state.read); update(0); }
else { motion(1); if (size() !== width) { width = size(); update(0); } }
})();
