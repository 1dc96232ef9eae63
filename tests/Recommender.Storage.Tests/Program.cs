using Recommender.Storage.Tests.Kills;

// The test assembly is a program too: what the kill tests start and kill, and the kills at full size.
return args switch
{
    ["append", var engine, var place, var prefix] => await Appending.ForEver(engine, place, prefix),
    ["kills", .. var rest] => await KillCommand.Run(rest),
    _ => KillCommand.Usage(),
};
