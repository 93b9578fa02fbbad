"""A strip bent into a round die, or drawn over a die's shoulder, as a plane-strain solid: the reference
of tests/published/test_*_slow.cpp for these tools. No measurement stands behind it.

Run by hand (minutes to an hour a case); the last lines go into tests/published/data:

    /usr/bin/python3 formed_strip.py round mu=0.135
    /usr/bin/python3 formed_strip.py draw mu=0.162

Half a section, plane of symmetry x = 0, die's top at z = 0, sheet on it (0 to t), punch from above.
Tools are rigid, given by distance functions; contact is a penalty, friction Coulomb's, regularised over
5 micron of slip a step. Release: the tools' forces fade to zero, nothing touches afterwards.
Sizes, curves and friction are from memory (docs/sources.md). mm, N, MPa, deg.
"""
import sys
import time
sys.dont_write_bytecode = True
import numpy as np
import getfem as gf
from solid_section import NoConvergence, Solid, Swift, Voce

BOTTOM, TOP = 1, 2
CASES = {
    'round': dict(E=70500., nu=0.342, flow=Voce(192.1, 429.8, 8.504), t=1.0, half=60., fine=(0., 50., 1.0),
                  punch=(0., 23.5), trough=(25.5, 4.), stroke=22., marks=(50., 58.)),
    'draw': dict(E=71000., nu=0.33, flow=Swift(579.8, 0.0166, 0.359), t=0.81, half=90., fine=(17., 103., 0.5),
                 punch=(20., 5.), die=(31., 5.), holder=1.0, stroke=30.),
}


def mesh_columns(half, begin, end, fine):
    """Even in the fine part, growing outside to 3 mm."""
    X = list(np.linspace(begin, end, int(round((end-begin)/fine))+1))
    for sign, stop in ((1, half), (-1, 0.)):
        step = fine
        while (stop-X[-1])*sign > 1e-9:
            step = min(1.3*step, 3.)
            last = abs(stop-X[-1]) < 1.5*step
            X.append(stop if last else X[-1]+sign*step)
        X = X[::-1]
    return np.array(X if X[0] < X[-1] else X[::-1])


class Strip:
    def __init__(self, case, mu=0., rows=4, pen=5e4, stroke=None, fine=None, half=None, dzmax=0.25, **sizes):
        c = self.c = dict(CASES[case], **sizes)
        self.mu, self.dzmax, self.stroke = mu, dzmax, stroke or c['stroke']
        t = self.t = c['t']
        b, e, f = c['fine']
        columns = mesh_columns(half or c['half'], b, e if case == 'round' else 33.+self.stroke, fine or f)
        m = gf.Mesh('cartesian', columns, np.linspace(0, t, int(rows)+1))
        faces = m.outer_faces()
        up = np.array([m.normal_of_face(cv, fa, 0)[1] for cv, fa in faces.T])
        m.set_region(BOTTOM, faces[:, up < -.5])
        m.set_region(TOP, faces[:, up > .5])
        s = self.s = Solid(m, c['E'], c['nu'], c['flow'])
        s.fscale = 0.3*400*t
        self.X, self.Z = s.nodes
        s.fixed = 2*np.where(self.X < 1e-9)[0]
        s.md.add_macro('x', '(X(1)+u(1))')
        s.md.add_macro('z', '(X(2)+u(2))')
        s.md.add_macro('above(h)', 'pos_part(1-pos_part(1-1000*(h)))')   # 0 to 1 within a micron
        s.md.add_fem_data('up', s.mf)
        for k, v in dict(zp=t, dzp=0., pen=pen, mu=mu, sreg=5e-3).items():
            s.md.add_initialized_data(k, float(v))
        self.bricks = []
        half_width, r = c['punch']
        self.corner(TOP, f'(x-{half_width})', f'(zp+{r}-z)', (1, -1), r, 'dzp')
        if 'trough' in c:
            R, r = c['trough']
            self.corner(BOTTOM, f'({R+r}-x)', f'(z+{r})', (-1, 1), r, only=f'above(z+{r})')
            N = f'sqrt(sqr(x)+sqr(z+{r})+1e-14)'
            self.touch(BOTTOM, f'({R}-{N})', f'(-x/{N})', f'(-(z+{r})/{N})', only=f'(1-above(z+{r}))')
        if 'die' in c:
            x, r = c['die']
            self.corner(BOTTOM, f'({x}-x)', f'(z+{r})', (-1, 1), r)
            self.touch(TOP, f'({c["holder"]}-z)', '0', '(-1)')

    def corner(self, face, qx, qz, signs, r, dz='0', only='1'):
        """A tool with one round edge: the points within r of the quadrant qx < 0, qz < 0."""
        N = f'sqrt(sqr(pos_part({qx}))+sqr(pos_part({qz}))+1e-14)'
        self.touch(face, f'({N}-{r})', f'({signs[0]}*pos_part({qx})/{N})', f'({signs[1]}*pos_part({qz})/{N})',
                   dz, only)

    def touch(self, face, d, nx, nz, dz='0', only='1'):
        """Push along the normal off the tool where the distance d is negative, and friction."""
        s = self.s
        press = f'(pen*sqr(neg_part({d}))/(neg_part({d})+0.02))'     # a soft start of 20 micron
        add = lambda text: self.bricks.append(s.md.add_nonlinear_term(s.edges, text, face))
        add(f'-{only}*{press}*({nx}*Test_u(1)+{nz}*Test_u(2))')
        if self.mu > 0:
            slip = f'(-{nz}*(u(1)-up(1))+{nx}*(u(2)-up(2)-{dz}))'
            add(f'{only}*mu*{press}*({slip}/sqrt(sqr({slip})+sqr(sreg)))'
                f'*(-{nz}*Test_u(1)+{nx}*Test_u(2))')

    def form(self):
        s, md, z, dz, last = self.s, self.s.md, self.t, 0.02, None
        end, begin = self.t-self.stroke, time.time()
        while z > end+1e-9:
            dz = min(dz, z-end)
            before, base = s.state(), md.variable('u')
            md.set_variable('zp', z-dz)
            md.set_variable('up', base)
            md.set_variable('dzp', -dz)
            guesses = [base+last[0]*(dz/last[1]), base] if last else [base]
            for guess in guesses:
                try:
                    it = s.newton(guess, tol=1e-3, maxit=18)
                    break
                except (NoConvergence, RuntimeError) as trouble:
                    s.restore(before)
                    why = trouble
            else:
                dz *= 0.4
                if dz < 1e-5:
                    raise NoConvergence(f'forming stopped at {self.t-z:.4f}: {why}')
                continue
            last = (md.variable('u')-base, dz)
            z -= dz
            s.commit()
            if s.nsteps % 20 == 0:
                print(f'# down {self.t-z:.3f} step {dz:.3f} iterations {it} strain {md.variable("xi0").max():.3f} '
                      f'{time.time()-begin:.0f} s', flush=True)
            dz = 0.6*dz if it > 14 else min(1.4*dz, self.dzmax) if it <= 8 else dz

    def release(self, n=10):
        """The tools' forces instead of the tools, then less of them. One node keeps its height."""
        s, md = self.s, self.s.md
        s.newton(maxit=40)
        s.commit()
        for brick in self.bricks:
            md.disable_bricks(brick)
        s.fext[:] = 0
        f0 = -s.residual()
        held = np.argmin(self.X+abs(self.Z-self.t/2))
        s.fixed = np.sort(np.r_[s.fixed, 2*held+1])
        left, dl = 1., 1/n
        while left > 1e-9:
            dl = min(dl, left)
            before, s.fext = s.state(), f0*(left-dl)
            try:
                s.newton(maxdu=10., may_rise=True)
            except (NoConvergence, RuntimeError):
                s.restore(before)
                dl *= 0.5
                if dl < 1e-4:
                    raise
                continue
            s.commit()
            left -= dl

    def middle(self, marks):
        """Places of the mid-surface at flat distances from the plane of symmetry."""
        i = np.where(abs(self.Z-self.t/2) < 1e-7)[0]
        i = i[np.argsort(self.X[i])]
        u = self.s.md.variable('u').reshape(-1, 2)[i]
        return np.array([[np.interp(m, self.X[i], self.X[i]+u[:, 0]), np.interp(m, self.X[i], self.Z[i]+u[:, 1])]
                         for m in marks])


def slope(a, b):
    return np.degrees(np.arctan2(b[1]-a[1], b[0]-a[0]))


def figures(strip):
    """Angles as the tests have them, between chords of the mid-surface; flat distances of their ends."""
    if 'trough' in strip.c:
        a, b = strip.middle(strip.c['marks'])
        return {'opening_angle': 180-2*slope(a, b)}
    top = strip.stroke+15
    web, edge, a, b, c, d, e = strip.middle((0, 15, 31, (31+top)/2, top, top+17, top+37))
    area = 0.5*((b[0]-a[0])*(c[1]-a[1])-(b[1]-a[1])*(c[0]-a[0]))
    product = np.linalg.norm(b-a)*np.linalg.norm(c-b)*np.linalg.norm(a-c)
    return {'wall_angle': 180-slope(a, b)+slope(web, edge), 'flange_angle': 180-slope(b, c)+slope(d, e),
            'wall_curvature': 4*area/product}


def main(case, *options):
    strip = Strip(case, **{k: float(v) for k, v in (o.split('=') for o in options)})
    begin = time.time()
    strip.form()
    held = figures(strip)
    strip.release()
    for k, v in figures(strip).items():
        print(f'{case} {" ".join(options)},{k},{held[k]:.6g},{v:.6g}')
    print(f'# {strip.s.nsteps} steps, {strip.s.iters} iterations, {time.time()-begin:.0f} s')


if __name__ == '__main__':
    main(*sys.argv[1:])
