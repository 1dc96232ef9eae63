namespace Recommender.Answers.Tests;

/// <summary>A request that gives every field that a request may have, so that none can be lost unseen.</summary>
public static class FullRequest
{
    public static byte[] Utf8 => """
        {
          "athlete": {
            "ref": "NM-04", "eventGroup": "jumps", "event": "long-jump", "ageYears": 22, "trainingAgeYears": 5.5, "sex": "female", "bodyMassKg": 61.5, "statureCm": 172,
            "oneRepMaxKg": { "back-squat": 95, "power-clean": 62.5 }, "competence": ["olympic-lift-derivatives"], "takeOffLeg": "left"
          },
          "phase": "pre-competition", "weeksToCompetition": 5.5,
          "setting": { "place": "club-gym", "equipment": ["band", "dumbbells", "bench"], "minutes": 25, "limits": ["quiet"] },
          "complaints": [{ "region": "patellar-tendon", "side": "left", "pain": 3, "nextMorning": "settled", "redFlags": [], "note": "after the long run" }],
          "redFlags": [],
          "needs": [{ "quality": "trunk-control", "importance": "high" }, { "quality": "grip", "weight": 0.05 }],
          "tests": {
            "counterMovementJumpCm": 52, "squatJumpCm": 47.5, "reactiveStrengthIndex": 1.9, "kneeToWallCm": { "left": 9, "right": 12.5 }, "modifiedThomasPositive": { "left": true, "right": false },
            "singleLegSquatRating": { "left": "good", "right": "fair" }, "dropJump": { "heightCm": 40, "contactMs": 190, "dropCm": 40 }, "loadedJumps": [{ "loadKg": 20, "heightCm": 40 }],
            "sprintSplits": [{ "distanceM": 10, "seconds": 1.9 }], "sprintStart": "gate", "repetitionsToFailure": { "back-squat": { "loadKg": 80, "repetitions": 6 } },
            "trunkHoldSeconds": { "flexor": 120, "extensor": 140, "sideLeft": 80, "sideRight": 85 }, "testPain": 1
          },
          "recent": [{ "exercise": "nordic-hamstring-lower", "daysAgo": 2, "sets": 3, "amount": 6, "unit": "reps" }],
          "exclude": ["back-squat"],
          "only": { "support": ["single", "split", "double"], "pattern": ["squat", "single-leg", "hinge"], "quality": ["glute-strength"], "loadingRate": ["slow", "isometric"] },
          "count": 6
        }
        """u8.ToArray();
}
