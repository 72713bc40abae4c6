//! The air that an aircraft flies in.

use crate::air::{airspeed, atmosphere};
use crate::answer::prepare::error::PrepareError;
use crate::document::condition::{AirKind, Condition, Phase, SpeedKind};
use crate::document::installation::Installation;
use crate::path::network::FreeStream;

/// Highest Mach number taken [-].
const MACH_MAX: f64 = 0.6;

pub(super) struct Outside {
    pub(super) stream: FreeStream,
    pub(super) pressure_altitude_m: f64,
    pub(super) tailwind_m_s: f64,
}

pub(super) fn outside(
    installation: &Installation,
    condition: &Condition,
) -> Result<Outside, PrepareError> {
    let pressure_altitude_m =
        atmosphere::pressure_altitude(condition.altitude.value, condition.altimeter_setting.value);
    let pressure_pa = atmosphere::standard_pressure(pressure_altitude_m);
    let airframe = &installation.airframe;
    // In flight the airspeed holds the wind already.
    let wind = if condition.phase == Phase::Ground {
        condition.wind.value
    } else {
        0.0
    };
    let against = condition.airspeed.value + wind;
    let (typed, tailwind_m_s) = (against.max(0.0), (-against).max(0.0));
    let calibrated = match condition.speed {
        SpeedKind::True => None,
        SpeedKind::Calibrated => Some(typed),
        // On the ground at rest a correction means nothing.
        SpeedKind::Indicated if condition.airspeed.value == 0.0 => Some(typed),
        SpeedKind::Indicated => Some((typed + airframe.position_error.value).max(0.0)),
    };
    let mach_of_calibrated =
        calibrated.map(|cas| airspeed::mach(airspeed::impact_pressure(cas), pressure_pa));
    let temperature_k = match condition.air {
        AirKind::HotDay => atmosphere::hot_day_temperature(pressure_altitude_m),
        AirKind::IsaOffset => {
            atmosphere::standard_temperature(pressure_altitude_m) + condition.isa_offset.value
        }
        AirKind::Oat => {
            let shown = condition.oat.value;
            // T = T_shown / (1 + 0.2 r M²), or T_shown − r V²/(2 c_p)
            match mach_of_calibrated {
                Some(mach) => shown / (1.0 + 0.2 * airframe.oat_recovery * mach * mach),
                None => {
                    shown
                        - airframe.oat_recovery * typed * typed / (2.0 * atmosphere::SPECIFIC_HEAT)
                }
            }
        }
    };
    let sound = atmosphere::speed_of_sound(temperature_k);
    let mach = mach_of_calibrated.unwrap_or(typed / sound);
    if mach > MACH_MAX {
        return Err(PrepareError::TooFast { mach });
    }
    let density = atmosphere::density(pressure_pa, temperature_k);
    let speed_m_s = mach * sound;
    Ok(Outside {
        stream: FreeStream {
            pressure_pa,
            temperature_k,
            total_k: airspeed::total_temperature(mach, temperature_k),
            density,
            speed_m_s,
            dynamic_pa: 0.5 * density * speed_m_s * speed_m_s,
            impact_pa: airspeed::compressed_rise(mach, pressure_pa),
            propeller_rise_pa: 0.0,
        },
        pressure_altitude_m,
        tailwind_m_s,
    })
}
