// The part in the page: builds the shape from the data beside it and lets it be turned.
(function () {
  'use strict';

  var byId = function (id) { return document.getElementById('part-view' + (id ? '-' + id : '')); };
  var place = byId('');
  var NO_FIGURE = 255;

  function bytesOf(text) {
    var letters = atob(text);
    var bytes = new Uint8Array(letters.length);
    for (var i = 0; i < letters.length; ++i) {
      bytes[i] = letters.charCodeAt(i);
    }
    return bytes;
  }

  // Low byte first, whatever this machine does.
  function numbersOf(text, width) {
    var bytes = bytesOf(text);
    var numbers = new Uint32Array(bytes.length / width);
    for (var i = 0; i < numbers.length; ++i) {
      for (var k = width - 1; k >= 0; --k) {
        numbers[i] = numbers[i] * 256 + bytes[i * width + k];
      }
    }
    return numbers;
  }

  function canDrawInSpace() {
    try {
      var canvas = document.createElement('canvas');
      return Boolean(canvas.getContext('webgl') || canvas.getContext('experimental-webgl'));
    } catch (problem) {
      return false;
    }
  }

  function flatPlace(written) {
    var codes = numbersOf(written.codes, 2);
    return function (node) { return written.low + written.span * codes[node] / 65535; };
  }

  // Two triangles for each quad, and the lines that only one quad has: the outline.
  function meshOf(written) {
    var quads = numbersOf(written.quads, written.bytes);
    var triangles = new Uint32Array(quads.length / 4 * 6);
    var seen = new Map();
    for (var q = 0, t = 0; q < quads.length; q += 4) {
      [0, 1, 2, 0, 2, 3].forEach(function (corner) { triangles[t++] = quads[q + corner]; });
      for (var k = 0; k < 4; ++k) {
        var a = quads[q + k];
        var b = quads[q + (k + 1) % 4];
        var key = Math.min(a, b) * written.nodes + Math.max(a, b);
        seen.set(key, seen.has(key) ? null : [a, b]);
      }
    }
    var outline = [];
    seen.forEach(function (pair) {
      if (pair) {
        outline.push(pair[0], pair[1]);
      }
    });
    return {
      nodes: written.nodes,
      triangles: triangles,
      outline: outline,
      edges: written.edges.map(function (edge) { return numbersOf(edge, written.bytes); }),
      station: flatPlace(written.station),
      distance: flatPlace(written.distance)
    };
  }

  function Part(data) {
    this.data = data;
    this.colours = bytesOf(data.colours);
    this.meshes = data.meshes.map(meshOf);
    this.points = data.states.map(function (state) {
      var codes = numbersOf(state.points, 2);
      var points = new Float32Array(codes.length);
      for (var i = 0; i < codes.length; ++i) {
        points[i] = data.cube.low[i % 3] + data.cube.span * codes[i] / 65535;
      }
      return points;
    });
  }

  Part.prototype.codes = function (state, field) {
    var written = this.data.states[state].figures[field.key];
    return written ? bytesOf(written) : null;
  };

  Part.prototype.colour = function (code, out, at) {
    for (var k = 0; k < 3; ++k) {
      out[at + k] = code === NO_FIGURE ? 205 : this.colours[3 * code + k];
    }
  };

  Part.prototype.coloursOf = function (codes, n) {
    var out = new Uint8Array(3 * n);
    for (var i = 0; i < n; ++i) {
      this.colour(codes ? codes[i] : NO_FIGURE, out, 3 * i);
    }
    return out;
  };

  // A cut edge drawn as a thin tube, so that its own figure can be seen.
  function tubeOf(part, points, nodes, codes, radius) {
    var n = nodes.length;
    var sides = 6;
    var at = function (i) {
      var node = nodes[Math.max(0, Math.min(n - 1, i))];
      return new THREE.Vector3(points[3 * node], points[3 * node + 1], points[3 * node + 2]);
    };
    var positions = new Float32Array(3 * n * sides);
    var colours = new Uint8Array(3 * n * sides);
    var index = [];
    for (var i = 0; i < n; ++i) {
      var along = at(i + 1).sub(at(i - 1)).normalize();
      var side = new THREE.Vector3(0, 0, 1).cross(along);
      if (side.lengthSq() < 1e-6) {
        side.set(1, 0, 0);
      }
      side.normalize();
      var up = along.clone().cross(side);
      for (var s = 0; s < sides; ++s) {
        var turn = 2 * Math.PI * s / sides;
        var v = i * sides + s;
        var corner = at(i).addScaledVector(side, radius * Math.cos(turn))
          .addScaledVector(up, radius * Math.sin(turn));
        positions.set([corner.x, corner.y, corner.z], 3 * v);
        part.colour(codes[nodes[i]], colours, 3 * v);
        if (i > 0) {
          var w = i * sides + (s + 1) % sides;
          index.push(v - sides, v, w, v - sides, w, w - sides);
        }
      }
    }
    var geometry = new THREE.BufferGeometry();
    geometry.setIndex(index);
    geometry.setAttribute('position', new THREE.BufferAttribute(positions, 3));
    geometry.setAttribute('color', new THREE.BufferAttribute(colours, 3, true));
    geometry.computeVertexNormals();
    return new THREE.Mesh(geometry, new THREE.MeshLambertMaterial({
      vertexColors: THREE.VertexColors, side: THREE.DoubleSide
    }));
  }

  function Stage(part) {
    var box = byId('canvas');
    this.part = part;
    this.box = box;
    this.renderer = new THREE.WebGLRenderer({ antialias: true, preserveDrawingBuffer: true });
    this.renderer.setPixelRatio(Math.min(2, window.devicePixelRatio || 1));
    this.renderer.setClearColor(0xffffff);
    box.appendChild(this.renderer.domElement);
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(28, 1, 0.1, 100);
    this.camera.up.set(0, 0, 1);
    // Seen square on, a colour is that of the scale; what is turned away is a little darker.
    this.scene.add(new THREE.AmbientLight(0xffffff, 0.72));
    var lamp = new THREE.DirectionalLight(0xffffff, 0.28);
    this.camera.add(lamp);
    this.scene.add(this.camera);
    this.controls = new THREE.OrbitControls(this.camera, this.renderer.domElement);
    this.controls.enableKeys = false;
    this.controls.screenSpacePanning = true;
    this.controls.addEventListener('change', this.draw.bind(this));
    this.group = null;
    var resize = this.resize.bind(this);
    window.addEventListener('resize', resize);
    if (window.ResizeObserver) {
      new ResizeObserver(resize).observe(box);
    }
  }

  Stage.prototype.resize = function () {
    var width = Math.max(100, this.box.clientWidth);
    var height = Math.max(100, this.box.clientHeight);
    this.renderer.setSize(width, height, true);
    this.camera.aspect = width / height;
    this.camera.updateProjectionMatrix();
    this.draw();
  };

  Stage.prototype.draw = function () {
    this.renderer.render(this.scene, this.camera);
    var eye = this.camera.position;
    place.dataset.camera = [eye.x, eye.y, eye.z].map(function (x) {
      return x.toFixed(2);
    }).join(' ');
  };

  // From the flange's side and from above, the whole of the last shape in sight.
  Stage.prototype.firstView = function () {
    var points = this.part.points[this.part.points.length - 1];
    var middle = new THREE.Box3().setFromBufferAttribute(new THREE.BufferAttribute(points, 3))
      .getCenter(new THREE.Vector3());
    var toEye = new THREE.Vector3(-0.45, 0.75, 0.5).normalize();
    var right = new THREE.Vector3(0, 0, 1).cross(toEye).normalize();
    var up = toEye.clone().cross(right);
    var high = Math.tan(0.5 * this.camera.fov * Math.PI / 180);
    var wide = high * this.camera.aspect;
    var far = 1e-6;
    var at = new THREE.Vector3();
    for (var i = 0; i < points.length; i += 3) {
      at.set(points[i], points[i + 1], points[i + 2]).sub(middle);
      far = Math.max(far, Math.abs(at.dot(right)) / wide + at.dot(toEye),
        Math.abs(at.dot(up)) / high + at.dot(toEye));
    }
    far *= 1.06;
    this.camera.near = far / 100;
    this.camera.far = far * 20;
    this.camera.position.copy(toEye).multiplyScalar(far).add(middle);
    this.controls.target.copy(middle);
    this.camera.updateProjectionMatrix();
    this.controls.update();
    this.draw();
  };

  Stage.prototype.show = function (state, field) {
    var part = this.part;
    var mesh = part.meshes[part.data.states[state].mesh];
    var points = part.points[state];
    var codes = part.codes(state, field);
    if (this.group) {
      this.scene.remove(this.group);
      this.group.traverse(function (thing) {
        if (thing.geometry) {
          thing.geometry.dispose();
          thing.material.dispose();
        }
      });
    }
    this.group = new THREE.Group();
    var isEdge = field.key === 'edge';
    var geometry = new THREE.BufferGeometry();
    geometry.setIndex(new THREE.BufferAttribute(mesh.triangles, 1));
    geometry.setAttribute('position', new THREE.BufferAttribute(points, 3));
    geometry.setAttribute('color', new THREE.BufferAttribute(
      part.coloursOf(isEdge ? null : codes, mesh.nodes), 3, true));
    geometry.computeVertexNormals();
    this.sheet = new THREE.Mesh(geometry, new THREE.MeshLambertMaterial({
      vertexColors: THREE.VertexColors, side: THREE.DoubleSide,
      polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1
    }));
    this.group.add(this.sheet);
    var outline = new THREE.BufferGeometry();
    outline.setIndex(mesh.outline);
    outline.setAttribute('position', new THREE.BufferAttribute(points, 3));
    this.group.add(new THREE.LineSegments(
      outline, new THREE.LineBasicMaterial({ color: 0x1c1c1c })));
    if (isEdge && codes) {
      var radius = 0.006 * part.data.cube.span;
      mesh.edges.forEach(function (nodes) {
        this.group.add(tubeOf(part, points, nodes, codes, radius));
      }, this);
    }
    this.scene.add(this.group);
    this.now = { mesh: mesh, codes: codes, points: points, isEdge: isEdge };
    this.draw();
  };

  // The node under the pointer: the nearest corner of what is hit, on an edge the edge's nearest.
  Stage.prototype.nodeAt = function (event) {
    var frame = this.renderer.domElement.getBoundingClientRect();
    var ray = new THREE.Raycaster();
    ray.setFromCamera(new THREE.Vector2(
      2 * (event.clientX - frame.left) / frame.width - 1,
      1 - 2 * (event.clientY - frame.top) / frame.height), this.camera);
    var hit = ray.intersectObjects(this.group.children.filter(function (thing) {
      return thing.isMesh;
    }))[0];
    if (!hit) {
      return null;
    }
    var points = this.now.points;
    var best = null;
    var least = Infinity;
    var look = function (node) {
      var away = hit.point.distanceToSquared(
        new THREE.Vector3(points[3 * node], points[3 * node + 1], points[3 * node + 2]));
      if (away < least) {
        least = away;
        best = node;
      }
    };
    if (hit.object === this.sheet) {
      [hit.face.a, hit.face.b, hit.face.c].forEach(look);
    } else {
      this.now.mesh.edges.forEach(function (nodes) { nodes.forEach(look); });
    }
    return best;
  };

  function shown(value, decimals) {
    return value.toFixed(decimals);
  }

  // In even steps from the foot of the bar to its top.
  function drawLegend(part, field, knowsField) {
    var canvas = byId('legend');
    var paper = canvas.getContext('2d');
    var foot = 282;
    var head = 62;
    paper.clearRect(0, 0, canvas.width, canvas.height);
    paper.fillStyle = '#1c1c1c';
    paper.font = '12px sans-serif';
    var line = '';
    var y = 14;
    (field.title + ', ' + field.unit).split(' ').forEach(function (word) {
      if (paper.measureText(line + ' ' + word).width > canvas.width - 12) {
        paper.fillText(line, 8, y);
        y += 15;
        line = '';
      }
      line += (line ? ' ' : '') + word;
    });
    paper.fillText(line, 8, y);
    for (var row = foot; row > head; --row) {
      var code = Math.round(254 * (foot - row) / (foot - head - 1));
      paper.fillStyle = 'rgb(' + [0, 1, 2].map(function (k) {
        return part.colours[3 * code + k];
      }).join(',') + ')';
      paper.fillRect(8, row - 1, 26, 1);
    }
    paper.strokeStyle = '#1c1c1c';
    paper.strokeRect(7.5, head - 0.5, 27, foot - head + 1);
    paper.fillStyle = '#1c1c1c';
    for (var i = 0; i <= field.steps; ++i) {
      var at = foot - (foot - head) * i / field.steps;
      paper.fillRect(34, at - 0.5, 6, 1);
      paper.fillText(
        shown(field.low + (field.top - field.low) * i / field.steps, field.decimals), 44, at + 4);
    }
    if (!knowsField) {
      paper.fillText('not known in this step', 44, head + 24);
    }
  }

  function start() {
    var data = JSON.parse(byId('data').textContent);
    var part = new Part(data);
    byId('plain').hidden = true;
    byId('live').hidden = false;
    var stage;
    try {
      stage = new Stage(part);
    } catch (problem) {
      byId('plain').hidden = false;
      byId('live').hidden = true;
      return;
    }
    var choice = byId('field');
    data.fields.forEach(function (field, i) {
      var option = document.createElement('option');
      option.value = String(i);
      option.textContent = field.title;
      option.selected = field.key === data.first;
      choice.appendChild(option);
    });
    if (data.fields.length === 0) {
      data.fields.push({
        key: '', title: 'No figure', unit: '', low: 0, top: 1, steps: 1, decimals: 0
      });
    }
    var step = byId('step');
    step.max = String(data.states.length - 1);
    step.value = step.max;
    var readout = byId('readout');
    var help = readout.textContent;

    var field = function () { return data.fields[Number(choice.value) || 0]; };
    function show() {
      var state = Number(step.value);
      byId('name').textContent = data.states[state].name;
      stage.show(state, field());
      drawLegend(part, field(), Boolean(stage.now.codes));
      readout.textContent = help;
      place.dataset.state = String(state);
      place.dataset.field = field().key;
    }
    function read(event) {
      var node = stage.nodeAt(event);
      if (node === null) {
        readout.textContent = help;
        return;
      }
      var code = stage.now.codes ? stage.now.codes[node] : NO_FIGURE;
      var f = field();
      var figure = code === NO_FIGURE ? 'no figure here'
        : shown(f.low + (f.top - f.low) * code / 254, f.decimals + 1) + ' ' + f.unit;
      var length = data.unit === 'in' ? 2 : 1;
      readout.textContent = f.title + ': ' + figure + '. Flat place: station '
        + shown(stage.now.mesh.station(node), length) + ' ' + data.unit + ', '
        + shown(stage.now.mesh.distance(node), length) + ' ' + data.unit + ' past the bend line.';
    }
    var waiting = null;
    stage.renderer.domElement.addEventListener('pointermove', function (event) {
      if (event.buttons === 0 && waiting === null) {
        waiting = window.requestAnimationFrame(function () {
          waiting = null;
          read(event);
        });
      }
    });
    stage.renderer.domElement.addEventListener('click', read);
    choice.addEventListener('change', show);
    step.addEventListener('input', show);
    byId('reset').addEventListener('click', stage.firstView.bind(stage));
    show();
    stage.resize();
    stage.firstView();
    place.dataset.ready = 'yes';
  }

  if (place && canDrawInSpace()) {
    start();
  }
})();
