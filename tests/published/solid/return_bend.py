"""A flange folded over a block, then clamped, then its lip folded a second time: a body of revolution,
for the strains and the springback of two successive bends. No measurement stands behind it.

Run by hand (about half an hour a case); lines without # go into tests/published/data/return_bend.csv:

    /usr/bin/python3 return_bend.py under rows=4 profile=FILE
    /usr/bin/python3 return_bend.py away rows=4 state=FILE
    /usr/bin/python3 return_bend.py once rows=6 Rb=60 h=12 sb=12    # A2_loose of solid_section.csv

Section: x past the first bend's tangent, z up, block's top at z = 0, sheet 0 to t; radius Rb + R1 - x, so
the block's wall x = R1 stands at Rb and the blank has a hole of radius Rb + R1 - h. Far web end fixed.
fold: a wiper goes down at R1 + 1.4 t until its corner has passed the edge. clamp: a back plate stands for
the wiper and closes from R1 + 1.4 t to R1 + t, from z = -R1 - 0.5 to z = zb; the block's wall ends there
too. zb: height of the middle of flat distance sb, to 0.01. turn: a second wiper goes to the block's side
("under", round a nose of the block) or away from it ("away", round a nose of the plate), 1.4 t below the
underside. release: the tools' forces fade to zero, nothing touches afterwards.
Tools are rigid, given by distance functions; contact is a penalty without friction. Edges without a nose
have radius 0.5 outside their tangent. Sizes chosen for this computation. mm, N, MPa, deg.
"""
import sys
import time
sys.dont_write_bytecode = True
import numpy as np
import getfem as gf
from solid_section import NoConvergence, Solid, Swift

BOTTOM, TOP, EDGE = 1, 2, 3
SIZES = dict(t=1., Rb=100., R1=3., R2=3., web=40., h=26., sb=16., gap=1.4)
E, NU, FLOW = 70000., 0.33, Swift(330., 0.0032, 0.22)
SHARP = 0.5


def grow(a, b, da, db):
    """Points after a up to b, spaced da at a and db at b."""
    n = max(1, int(round(2*abs(b-a)/(da+db))))
    w = np.linspace(da, db, n)
    return a+(b-a)*np.cumsum(w)/w.sum()


def columns(c, fine):
    """Flat distances: fine in both bends and the lip, coarser in web and flange."""
    even = lambda a, b: np.linspace(a, b, int(round((b-a)/fine))+1)[1:]
    a, e, b = -2*c['t'], 6.5, c['sb']-2
    mid = (e+b)/2
    web = grow(a, -c['web'], fine, 8*fine)[::-1]
    return np.r_[web, a, even(a, e), grow(e, mid, fine, 2*fine), grow(mid, b, 2*fine, fine), even(b, c['h'])]


class ReturnBend:
    def __init__(self, way, rows=4, fine=0.25, pen=4e5, pen_end=4e6, dmax=0.25, limit=3600., **sizes):
        c = self.c = dict(SIZES, **sizes)
        self.way, self.dmax, self.pen_end, self.limit = way, dmax, pen_end, limit
        self.rw = max(2*c['t'], 3.)
        self.axis = c['Rb']+c['R1']
        X = columns(c, fine)
        m = gf.Mesh('cartesian', np.sort(self.axis-X), np.linspace(0, c['t'], int(rows)+1))
        faces = m.outer_faces()
        n = np.array([m.normal_of_face(cv, fa, 0) for cv, fa in faces.T])
        for region, part in ((BOTTOM, n[:, 1] < -.5), (TOP, n[:, 1] > .5), (EDGE, n[:, 0] < -.5)):
            m.set_region(region, faces[:, part])
        s = self.s = Solid(m, E, NU, FLOW, revolved=True)
        s.fscale = 0.3*330*c['t']*self.axis
        self.X, self.Z = self.axis-s.nodes[0], s.nodes[1]
        far = np.where(abs(self.X+c['web']) < 1e-7)[0]
        s.fixed = np.sort(np.r_[2*far, 2*far+1])
        s.md.add_macro('x', f'({self.axis!r}-X(1)-u(1))')
        s.md.add_macro('z', '(X(2)+u(2))')
        s.md.add_macro('above(h)', 'pos_part(1-pos_part(1-1000*(h)))')   # 0 to 1 within a micron
        for k, v in dict(zw=c['t'], pen=pen, half=-1e3, zb=0., xp=0., xv=0.).items():
            s.md.add_initialized_data(k, float(v))
        self.bricks, self.begin = [], time.time()
        R = c['R1']
        self.corner((BOTTOM, EDGE), (0, f'(-{R})'), (1, 1), R, 'above(z-half)')
        self.corner((TOP,), (0, c['t']+SHARP), (1, -1), SHARP)
        self.wiper = self.corner((TOP, EDGE), (R+c['gap']*c['t']+self.rw, f'(zw+{self.rw})'), (-1, -1), self.rw)

    def corner(self, faces, at, away, r, only='1'):
        """A tool with one round edge about `at`; the sheet lies to the side `away` tells, in x and z."""
        s = self.s
        qx, qz = (f'pos_part(({v}-{p})*({a}))' for v, p, a in zip('xz', at, away))
        N = f'sqrt(sqr({qx})+sqr({qz})+1e-14)'
        push = f'pen*neg_part({N}-{r})/{N}*(({-away[0]})*{qx}*Test_u(1)+({away[1]})*{qz}*Test_u(2))'
        made = [s.md.add_nonlinear_term(s.edges, f'-{only}*{s.weight}*{push}', f) for f in faces]
        self.bricks += made
        return made

    def travel(self, name, end, step=2e-3):
        """Moves one tool by the datum that places it."""
        s, md, last = self.s, self.s.md, None
        at = md.variable(name)[0]
        sign = np.sign(end-at)
        while abs(end-at) > 1e-9:
            step = min(step, abs(end-at))
            before, base = s.state(), md.variable('u')
            md.set_variable(name, at+sign*step)
            for guess in [base+last[0]*(step/last[1]), base] if last else [base]:
                try:
                    it = s.newton(guess)
                    break
                except (NoConvergence, RuntimeError) as trouble:
                    s.restore(before)
                    why = trouble
            else:
                step *= 0.4
                md.set_variable(name, at)
                if step < 1e-5 or time.time()-self.begin > self.limit:
                    raise NoConvergence(f'{name} stopped at {at:.4f} on the way to {end:.4f}: {why}')
                continue
            last = (md.variable('u')-base, step)
            at += sign*step
            s.commit()
            if s.nsteps % 10 == 0:
                self.tell(f'{name} {at:.3f} step {step:.4f} iterations {it}')
            step = 0.6*step if it > 14 else min(1.4*step, self.dmax) if it <= 8 else step

    def tell(self, text):
        p = self.middle()
        print(f'# {text} edge {p["x"][-1]:.3f} {p["z"][-1]:.3f} strain {self.s.md.variable("xi0").max():.3f} '
              f'{time.time()-self.begin:.0f} s', flush=True)

    def leave(self, bricks, n=10):
        """Tools go: their forces stand for them and fade to zero."""
        s = self.s
        for brick in bricks:
            s.md.disable_bricks(brick)
        s.fext[:] = 0
        f0 = -s.residual()
        left, dl = 1., 1/n
        while left > 1e-9:
            dl = min(dl, left)
            before, s.fext = s.state(), f0*(left-dl)
            try:
                s.newton(may_rise=True)
            except (NoConvergence, RuntimeError):
                s.restore(before)
                dl *= 0.5
                if dl < 1e-4:
                    raise
                continue
            s.commit()
            left -= dl
        s.fext[:] = 0

    def fold(self):
        c = self.c
        self.travel('zw', -(c['h']+self.rw-0.5*c['R1']), 1e-3)

    def height(self):
        p = self.middle()
        return np.interp(self.c['sb'], p['X'], p['z'])

    def clamp(self):
        """The second bend's tools stand at zb; where that is must follow from the clamped sheet itself."""
        c, md = self.c, self.s.md
        under, r1, t = self.way == 'under', c['R1'], c['t']
        self.stand(round(self.height(), 2))
        md.set_variable('xp', r1+c['gap']*t)
        r = c['R2'] if under else SHARP
        self.corner((BOTTOM, EDGE), (r1-r, 'zb'), (1, -1), r, '(1-above(z-half))')
        self.corner((TOP,), (f'(xp+{SHARP})', -r1-SHARP), (-1, 1), SHARP, 'above(z-half)')
        r = SHARP if under else c['R2']
        self.corner((TOP,), (f'(xp+{r})', 'zb'), (-1, -1), r, '(1-above(z-half))')
        self.leave(self.wiper)
        self.bricks = [b for b in self.bricks if b not in self.wiper]
        self.travel('xp', r1+t, 0.02)
        for _ in range(5):
            if abs(self.height()-self.zb) <= 0.0051:
                break
            self.stand(round(self.height(), 2))
            self.s.newton()
            self.s.commit()

    def stand(self, zb):
        self.zb = zb
        self.s.md.set_variable('zb', zb)
        self.s.md.set_variable('half', (zb-self.c['R1'])/2)

    def turn(self):
        c, rw, md = self.c, self.rw, self.s.md
        side = -1 if self.way == 'under' else 1          # the way the wiper goes
        face = self.zb-c['R2']-c['gap']*c['t']
        p = self.place()
        low = p[1] < self.zb
        nearest = max(-side*p[0][low])*-side
        md.set_variable('xv', nearest-side*1e-3)
        self.second = self.corner((TOP if side < 0 else BOTTOM, EDGE), (f'(xv-({side*rw}))', face-rw), (side, 1), rw)
        tangent = c['R1'] if side < 0 else c['R1']+c['t']
        self.travel('xv', tangent+side*(c['h']-c['sb']+rw-0.5*c['R2']), 1e-3)

    def stiffen(self):
        """Tools as good as rigid before they go: springback feels how soft they are."""
        s, md, f = self.s, self.s.md, 1.6
        p = md.variable('pen')[0]
        while p < self.pen_end*(1-1e-9):
            before, q = s.state(), min(p*f, self.pen_end)
            md.set_variable('pen', q)
            try:
                s.newton(maxit=40)
                s.commit()
                p = q
            except (NoConvergence, RuntimeError):
                s.restore(before)
                md.set_variable('pen', p)
                f = 1+(f-1)/2
                if f < 1.02:
                    print(f'# contact not stiffer than {p:.3g} N/mm^3')
                    break

    def place(self):
        u = self.s.md.variable('u').reshape(-1, 2)
        return self.X-u[:, 0], self.Z+u[:, 1]

    def line(self, z):
        i = np.where(abs(self.Z-z) < 1e-7)[0]
        return i[np.argsort(self.X[i])]

    def middle(self):
        """Mid-surface: flat distance, place, thickness along the normal over t, hoop log strain."""
        t = self.c['t']
        px, pz = self.place()
        low, mid, top = (self.line(z) for z in (0., t/2, t))
        X, x, z = self.X[mid], px[mid], pz[mid]
        dx, dz = np.gradient(x, X), np.gradient(z, X)
        th = ((px[top]-px[low])*-dz+(pz[top]-pz[low])*dx)/np.hypot(dx, dz)/t
        return dict(X=X, x=x, z=z, th=th, hoop=np.log((self.axis-x)/(self.axis-X)))

    def edge_thickness(self):
        """Of the two elements next to the middle of the free edge."""
        i = np.where(abs(self.X-self.c['h']) < 1e-7)[0]
        i = i[np.argsort(self.Z[i])]
        k = np.argmin(abs(self.Z[i]-self.c['t']/2))
        a, b = i[k-2], i[k+2]
        x, z = self.place()
        return np.hypot(x[b]-x[a], z[b]-z[a])/(self.Z[b]-self.Z[a])


def direction(p, begin, end):
    """Of the mid-surface over 40 to 90 % of a straight part, least squares."""
    k = (p['X'] >= begin+0.4*(end-begin)-1e-9) & (p['X'] <= begin+0.9*(end-begin)+1e-9)
    P = np.c_[p['x'][k], p['z'][k]]
    d = np.linalg.svd(P-P.mean(0))[2][0]
    return d if d @ (P[-1]-P[0]) > 0 else -d


def thinnest(p, begin, end):
    k = np.where((p['X'] >= begin-1e-9) & (p['X'] <= end+1e-9))[0]
    i = k[np.argmin(p['th'][k])]
    return p['th'][i], p['X'][i]


def figures(b):
    c, p = b.c, b.middle()
    bend1, bend2 = (np.pi/2*(R+c['t']/2) for R in (c['R1'], c['R2']))
    f = direction(p, bend1, c['sb'])
    lip = direction(p, c['sb']+bend2, c['h']) if c['sb'] < c['h'] else f
    web = p['X'] <= 1e-9
    lift = p['z'][web]-c['t']/2
    flat = np.polyval(np.polyfit(p['x'][web], p['z'][web], 1), p['x'][web])
    t1, at1 = thinnest(p, 0., bend1)
    t2, at2 = thinnest(p, c['sb'], min(c['sb']+bend2, c['h']))
    return dict(flange_angle=np.degrees(np.arctan2(-f[1], f[0])),
                lip_angle=np.degrees(np.arctan2(abs(f[0]*lip[1]-f[1]*lip[0]), f @ lip)),
                edge_strain=p['hoop'][-1], edge_thickness=b.edge_thickness(), edge_radius=b.axis-p['x'][-1],
                edge_x=p['x'][-1], edge_z=p['z'][-1], least_bend1=t1, least_bend1_at=at1,
                least_bend2=t2, least_bend2_at=at2, web_deviation=lift[np.argmax(abs(lift))],
                web_peak_to_valley=np.ptp(p['z'][web]-flat))


def show(b, name):
    f = figures(b)
    print('# case,' + ','.join(f))
    print(f'{b.way}_{name},' + ','.join(f'{v:.6g}' for v in f.values()), flush=True)
    return b.middle()


def write_profile(name, held, released):
    keys = ('x', 'z', 'th', 'hoop')
    with open(name, 'w') as out:
        print('distance,' + ','.join(f'{k}_{s}' for s in ('held', 'released')
                                     for k in ('x', 'z', 'thickness', 'hoop')), file=out)
        for row in list(zip(held['X'], *(p[k] for p in (held, released) for k in keys)))[::2]:
            print(','.join(f'{v:.6g}' for v in row), file=out)


def folded(b, state):
    """The first fold is the same both ways: kept in a file, if one is named."""
    try:
        kept = np.load(state)
        b.s.restore({k: kept[k] for k in kept.files})
        b.s.md.set_variable('zw', -(b.c['h']+b.rw-0.5*b.c['R1']))
        b.s.newton()
    except (FileNotFoundError, TypeError):
        b.fold()
        if state:
            np.savez(state, **b.s.state())


def run(b, state, profile):
    folded(b, state)
    show(b, 'folded')
    if b.way != 'once':
        b.clamp()
        print(f'# zb {b.zb:.2f}, middle of flat distance {b.c["sb"]:g} at {b.height():.4f}')
        show(b, 'clamped')
        b.turn()
    b.stiffen()
    held = show(b, 'held')
    b.leave(b.bricks)
    released = show(b, 'released')
    if profile:
        write_profile(profile, held, released)


def main(way, *options):
    o = dict(p.split('=') for p in options)
    state, profile = o.pop('state', None), o.pop('profile', None)
    b = ReturnBend(way, **{k: float(v) for k, v in o.items()})
    print(f'# {way} {" ".join(options)}: {b.s.mf.nbdof()} unknowns')
    try:
        run(b, state, profile)
    except NoConvergence as trouble:
        print(f'# {trouble}')
        show(b, 'stopped')
    print(f'# {b.s.nsteps} steps, {b.s.iters} iterations, {time.time()-b.begin:.0f} s')


if __name__ == '__main__':
    main(*sys.argv[1:])
