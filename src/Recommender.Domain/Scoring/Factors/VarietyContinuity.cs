using Recommender.Domain.Catalogue;
using Recommender.Domain.Knowledge;

namespace Recommender.Domain.Scoring.Factors;

/// <summary>Points for keeping what is in the programme, and against doing the same again at once.</summary>
public sealed class VarietyContinuity() : Factor("variety-continuity")
{
    /// <inheritdoc/>
    public override Scorer Prepare(ScoringContext context) => new Prepared(context);

    private sealed class Prepared : Scorer
    {
        private readonly ScoringContext context;
        private readonly ExerciseCatalogue catalogue;
        private readonly ContinuityRule rule;

        public Prepared(ScoringContext context)
            : base(context.Situation.Knowledge.Scoring.Continuity.Basis, context.Situation.Knowledge.Scoring.Continuity.Source)
        {
            this.context = context;
            catalogue = context.Situation.Catalogue;
            rule = context.Situation.Knowledge.Scoring.Continuity;
        }

        public override bool IsIdle => context.Situation.LastDone.Count == 0;

        public override void Score(int position, ref PointSink sink)
        {
            if (context.Situation.LastDone.Count == 0)
            {
                return;
            }

            var own = int.MaxValue;
            var family = int.MaxValue;
            foreach (var done in context.Situation.LastDone)
            {
                if (done.Position == position)
                {
                    own = done.DaysAgo;
                }
                else if (catalogue.Families[done.Position] == catalogue.Families[position])
                {
                    family = Math.Min(family, done.DaysAgo);
                }
            }

            Add(rule.SameExercise, own, "same-exercise", ref sink);
            Add(rule.SameFamily, family, "same-family", ref sink);
        }

        private void Add(IReadOnlyList<DaysStep> steps, int daysAgo, string code, ref PointSink sink)
        {
            for (var i = 0; i < steps.Count; i++)
            {
                if (daysAgo >= steps[i].FromDays && daysAgo <= steps[i].ToDays)
                {
                    var points = Points.Of(steps[i].Points).Thousandths;
                    sink.Add(points);
                    if (sink.Records)
                    {
                        sink.Note(code, $"Done {daysAgo} days ago: {steps[i].Note}", points, Basis, Source, daysAgo);
                    }
                }
            }
        }
    }
}
