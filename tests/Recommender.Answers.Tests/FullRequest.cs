namespace Recommender.Answers.Tests;

/// <summary>A request that gives every field that a request may have, so that none can be lost unseen.</summary>
public static class FullRequest
{
    public static byte[] Utf8 => """
        {
          "athlete": {
            "ref": "NM-04", "eventGroup": "jumps", "event": "long-jump", "ageYears": 22, "trainingAgeYears": 5.5, "sex": "female", "bodyMassKg": 61.5, "statureCm": 172,
            "oneRepMaxKg": { "back-squat": 95, "power-clean": 62.5 }, "competence": ["olympic-lift-derivatives"], "takeOffLeg": "left",
            "leadLeg": "right", "throwingSide": "right", "startFrontFoot": "left",
            "restrictions": [{ "region": "hip", "side": "left", "maxTissueLoad": 4.5, "maxLoadingRate": "slow", "noImpact": true, "stage": "slow-heavy", "reviewInDays": -2, "by": "club physio" }],
            "clearances": [{ "flag": "recent-surgery", "by": "surgeon", "daysAgo": 10 }], "history": [{ "region": "hamstring", "side": "right", "monthsAgo": 8, "surgery": false }],
            "layoff": { "weeks": 3.5, "reason": "illness" }, "growthSpurt": false, "supervised": true, "limitations": ["one hand"]
          },
          "coach": "HC-1", "phase": "pre-competition", "competitions": [{ "daysToStart": 38, "days": 2, "priority": "main" }], "weekKind": "build", "units": "metric",
          "training": [{ "kind": "tempo", "daysFromToday": 1, "minutes": 40, "contacts": 0, "throws": 0, "effort": 5 }],
          "setting": { "place": "club-gym", "equipment": ["band", "dumbbells", "bench"], "minutes": 25, "limits": ["quiet"], "slot": "gym",
            "kit": { "dumbbell": { "maxKg": 30, "stepKg": 2 }, "barbell": { "barKg": 20, "platesKg": [1.25, 5, 20] } } },
          "complaints": [{ "region": "patellar-tendon", "side": "left", "pain": 3, "nextMorning": "settled", "mornings": ["settled", "same"], "trend": "falling", "kind": "pain", "tissue": "tendon",
            "onset": "gradual", "daysSinceOnset": 40, "stage": "slow-heavy", "provokedBy": ["landing"], "redFlags": [], "note": "after the long run" }],
          "redFlags": [],
          "needs": [{ "quality": "trunk-control", "importance": "high" }, { "quality": "grip", "weight": 0.05 }],
          "tests": {
            "counterMovementJumpCm": 52, "squatJumpCm": 47.5, "reactiveStrengthIndex": 1.9, "kneeToWallCm": { "left": 9, "right": 12.5 }, "modifiedThomasPositive": { "left": true, "right": false },
            "singleLegSquatRating": { "left": "good", "right": "fair" }, "dropJump": { "heightCm": 40, "contactMs": 190, "dropCm": 40 }, "loadedJumps": [{ "loadKg": 20, "heightCm": 40 }],
            "sprintSplits": [{ "distanceM": 10, "seconds": 1.9 }], "sprintStart": "gate", "repetitionsToFailure": { "back-squat": { "loadKg": 80, "repetitions": 6 } },
            "trunkHoldSeconds": { "flexor": 120, "extensor": 140, "sideLeft": 80, "sideRight": 85 }, "testPain": 1, "daysAgo": 12, "trials": 3
          },
          "recent": [{ "exercise": "nordic-hamstring-lower", "daysAgo": 2, "sets": 3, "amount": 6, "unit": "reps" }],
          "sessionRatings": [{ "daysAgo": 1, "effort": 6, "minutes": 75 }],
          "exclude": ["back-squat"],
          "only": { "support": ["single", "split", "double"], "pattern": ["squat", "single-leg", "hinge"], "quality": ["glute-strength"], "loadingRate": ["slow", "isometric"] },
          "count": 6, "perFamily": 2
        }
        """u8.ToArray();
}
