"""Independent 2D solid, in plane strain or revolved: finite-strain J2 on 8-node quads, on the general-purpose
library GetFEM (Debian: python3-getfem, python3-scipy). Shares no code and no theory with the shell.

Log strain from the trial elastic left Cauchy-Green tensor, Kirchhoff stress, exact tangent; the plastic
increment is solved at each point and condensed. The same model as solid-section-reference in
docs/sources.md, there with its verification. Units: mm, N, MPa. Run by hand, never by a test.
"""
import numpy as np
import scipy.sparse as sp
import scipy.sparse.linalg as spl
import getfem as gf

gf.util('trace level', 0)
gf.util('warning level', 0)


class NoConvergence(Exception):
    pass


class Swift:
    """K (e0 + p)^n"""
    def __init__(self, K, e0, n):
        self.K, self.e0, self.n = K, e0, n
        self.text = f'({K!r}*pow({e0!r}+xi0+xi,{n!r}))'

    def at(self, p):
        s = self.K*(self.e0+p)**self.n
        return s, self.n*s/(self.e0+p)


class Voce:
    """sat - (sat - y0) exp(-c p)"""
    def __init__(self, y0, sat, c):
        self.span, self.sat, self.c = sat-y0, sat, c
        self.text = f'({sat!r}-{sat-y0!r}*exp(-{c!r}*(xi0+xi)))'

    def at(self, p):
        left = self.span*np.exp(-self.c*p)
        return self.sat-left, self.c*left


class Solid:
    """A mesh and what each of its 2x2 points remembers; revolved about the mesh's second axis if told."""

    def __init__(self, mesh, E, nu, flow, revolved=False):
        self.flow, self.G = flow, E/2/(1+nu)
        self.mf = gf.MeshFem(mesh, 2)
        self.mf.set_fem(gf.Fem('FEM_Q2_INCOMPLETE(2)'))
        self.mim = gf.MeshIm(mesh, gf.Integ('IM_GAUSS_PARALLELEPIPED(2,3)'))
        self.edges = gf.MeshIm(mesh, gf.Integ('IM_GAUSS_PARALLELEPIPED(2,7)'))
        self.d1 = gf.MeshImData(self.mim, -1)
        self.d33 = gf.MeshImData(self.mim, -1, [3, 3])
        md = self.md = gf.Model('real')
        md.add_fem_variable('u', self.mf)
        md.add_im_variable('xi', self.d1)       # plastic strain added since the last step
        md.add_im_data('xi0', self.d1)
        md.add_im_data('iCp', self.d33)
        md.set_variable('iCp', np.tile(np.eye(3).ravel(), self.d1.nbpts()))
        md.add_initialized_data('G', self.G)
        md.add_initialized_data('kap', E/3/(1-2*nu))
        A = '[1,0;0,1;0,0]'
        hoop = lambda u: f'+({u}(1)/X(1))*[0,0,0;0,0,0;0,0,1]' if revolved else ''
        self.weight = 'X(1)' if revolved else '1'    # forces are per radian when revolved
        md.add_macro('F3', f'(Id(3)+{A}*Grad_u*[1,0,0;0,1,0]{hoop("u")})')
        md.add_macro('Ee', "(0.5*Logm(F3*iCp*F3'))")
        md.add_macro('sd', '(2*G*Deviator(Ee))')
        md.add_macro('q', '(sqrt(1.5*Norm_sqr(sd)+1e-8))')
        md.add_macro('tau', '((1-3*G*xi/q)*sd+kap*Trace(Ee)*Id(3))')
        rate = f'({A}*Grad_Test_u*[1,0,0;0,1,0]{hoop("Test_u")})'
        md.add_nonlinear_term(self.mim, f"{self.weight}*((tau*Inv(F3')):{rate})")
        md.add_nonlinear_term(
            self.mim, f'(xi-pos_part(xi+(q-3*G*xi-{flow.text})/(3*G)))*Test_xi*3*G')
        self.nodes = self.mf.basic_dof_nodes()[:, ::2]
        self.fixed = np.zeros(0, int)
        self.fext = np.zeros(self.mf.nbdof())
        self.iters = self.nsteps = 0
        iu, ix = md.interval_of_variable('u'), md.interval_of_variable('xi')
        self.su, self.sx = slice(iu[0], iu[0]+iu[1]), slice(ix[0], ix[0]+ix[1])

    def flow_points(self):
        """Return mapping at every point for the present displacement; monotone from 0."""
        q = self.md.interpolation('q', self.d1)
        p0 = self.md.variable('xi0')
        x = np.zeros_like(q)
        act = q > self.flow.at(p0)[0]
        qa, pa, xa = q[act], p0[act], np.zeros(act.sum())
        for _ in range(60):
            s, slope = self.flow.at(pa+xa)
            d = (qa-3*self.G*xa-s)/(3*self.G+slope)
            xa = np.maximum(xa+d, 0.)
            if len(d) == 0 or np.max(np.abs(d)) < 1e-14:
                break
        x[act] = xa
        self.md.set_variable('xi', x)

    def residual(self):
        self.flow_points()
        self.md.assembly('build_rhs')
        r = self.md.rhs()[self.su]+self.fext
        r[self.fixed] = 0
        return r

    def direction(self, r):
        self.md.assembly('build_matrix')
        T = self.md.tangent_matrix()
        jc, ir = T.csc_ind()
        A = sp.csc_matrix((T.csc_val(), ir, jc), shape=T.size()).tocsr()
        U, X = A[self.su], A[self.sx]
        D = X[:, self.sx].diagonal()
        S = (U[:, self.su]-U[:, self.sx] @ (sp.diags(1/D) @ X[:, self.su])).tocsc()
        free = np.setdiff1d(np.arange(len(r)), self.fixed)
        du = np.zeros(len(r))
        du[free] = spl.splu(S[free][:, free].tocsc(), permc_spec='COLAMD').solve(r[free])
        return du

    def newton(self, guess=None, maxit=25, tol=1e-5, maxdu=1.0, may_rise=False):
        """Full steps, shortened while the residual does not fall; `fscale` is a force in N. Without tools
        it may rise at first: bending a thin sheet is so much softer than stretching it."""
        if guess is not None:
            self.md.set_variable('u', guess)
        v = self.md.variable('u')
        r = self.residual()
        nr = np.linalg.norm(r)
        for it in range(maxit):
            if not np.isfinite(nr):
                raise NoConvergence('not finite')
            if nr < tol*self.fscale:
                return it
            du = self.direction(r)
            self.iters += 1
            a, best = min(1.0, maxdu/np.abs(du).max()), None
            for _ in range(6):
                self.md.set_variable('u', v+a*du)
                r2 = self.residual()
                n2 = np.linalg.norm(r2)
                if np.isfinite(n2) and (best is None or n2 < best[0]):
                    best = (n2, a, r2)
                if np.isfinite(n2) and (n2 < (1-0.1*a)*nr or may_rise and it % 6 < 3 and n2 < 100*self.fscale):
                    best = (n2, a, r2)
                    break
                a *= 0.5
            if best is None:
                raise NoConvergence('line search')
            nr, a, r = best
            v = v+a*du
            self.md.set_variable('u', v)
        raise NoConvergence(f'residual {nr:.3g} N after {maxit} iterations')

    def commit(self):
        """The points remember the present shape."""
        md = self.md
        iC = md.interpolation("(Inv(F3)*Expm(2*(Ee-(1.5*xi/q)*sd))*Inv(F3'))", self.d33)
        B = iC.reshape(-1, 3, 3)
        md.set_variable('iCp', (0.5*(B+B.transpose(0, 2, 1))).ravel())
        md.set_variable('xi0', md.variable('xi0')+md.variable('xi'))
        md.set_variable('xi', 0*md.variable('xi'))
        self.nsteps += 1

    def state(self):
        return {k: self.md.variable(k).copy() for k in ('u', 'xi', 'xi0', 'iCp')}

    def restore(self, state):
        for k, v in state.items():
            self.md.set_variable(k, v)
