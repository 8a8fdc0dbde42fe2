#include "tests/reference/multibody_rest.h"

#include <Simbody.h>

namespace reference {

double resting_angle_rad(const std::vector<TwoPointSpring>& springs, double from_rad) {
    using namespace SimTK;
    MultibodySystem system;
    SimbodyMatterSubsystem matter(system);
    GeneralForceSubsystem forces(system);
    // The mass plays no part at rest.
    const Body::Rigid body(MassProperties(1.0, Vec3(0), UnitInertia(1.0)));
    MobilizedBody::Pin pinned(matter.Ground(), Transform(), body, Transform());
    for (const TwoPointSpring& spring : springs)
        Force::TwoPointLinearSpring(
            forces, pinned, Vec3(spring.on_body[0], spring.on_body[1], spring.on_body[2]), matter.Ground(),
            Vec3(spring.on_ground[0], spring.on_ground[1], spring.on_ground[2]), spring.rate_n_m,
            spring.natural_length_m);
    State state = system.realizeTopology();
    pinned.setAngle(state, from_rad);
    LocalEnergyMinimizer::minimizeEnergy(system, state, 1e-5); // N·m: far below 1e-5 rad
    return pinned.getAngle(state);
}

} // namespace reference
