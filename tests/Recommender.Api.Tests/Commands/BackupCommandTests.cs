using Microsoft.Extensions.Configuration;
using Recommender.Api.Commands;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Commands;

public sealed class BackupCommandTests : IDisposable
{
    private readonly ApiHost api = new();
    private readonly string folder = Directory.CreateTempSubdirectory("recommender-backup-").FullName;

    public void Dispose()
    {
        api.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task A_backup_of_a_running_service_is_restored_into_a_fresh_one_that_goes_on()
    {
        var id = (string)(await api.Answer("/v1/recommendations", Examples.Minimal()))["decisionId"]!;
        var (code, said) = Backup(api.Folder, folder);
        Assert.True(code == 0, said);
        var file = Assert.Single(Directory.GetFiles(folder));

        await using var fresh = new ApiHost();
        var (restoredCode, restored) = await Restore(fresh.Folder, file);

        Assert.True(restoredCode == 0, restored);
        Assert.Matches("local: intact, 1 records; head [0-9a-f]{64}\\.", restored);
        Assert.Equal((string)(await api.Get($"/v1/decisions/{id}"))["hash"]!, (string)(await fresh.Get($"/v1/decisions/{id}"))["hash"]!);
        Assert.True((bool)(await fresh.Answer($"/v1/decisions/{id}/replay", "{}"))["identical"]!);
        await fresh.Answer("/v1/recommendations", Examples.Minimal());
        Assert.Equal(2, (long)(await fresh.Answer("/v1/decisions/verify", "{}"))["checked"]!);
    }

    [Fact]
    public async Task A_store_in_use_and_a_file_that_is_no_backup_are_told_and_left_alone()
    {
        await api.Answer("/v1/recommendations", Examples.Minimal());
        var file = Path.Combine(folder, "b");
        Assert.Equal(0, Backup(api.Folder, file).Code);

        var (code, said) = await Restore(api.Folder, file);
        Assert.Equal(2, code);
        Assert.Contains("not empty", said, StringComparison.Ordinal);
        var (again, there) = Backup(api.Folder, file);
        Assert.Equal(2, again);
        Assert.Contains("there already", there, StringComparison.Ordinal);
        await File.WriteAllTextAsync(file + "x", "a letter");
        Assert.Equal(2, (await Restore(Path.Combine(folder, "new"), file + "x")).Code);
        Assert.Equal(1, api.DecisionCount());
    }

    [Fact]
    public async Task Without_a_file_or_a_store_both_say_what_they_need()
    {
        using var said = new StringWriter();
        Assert.Equal(2, BackupCommand.Run([BackupCommand.Name], Configuration(folder), said, said));
        Assert.Equal(2, await RestoreCommand.Run([RestoreCommand.Name], Configuration(folder), said, said));
        Assert.Equal(2, Backup(folder, Path.Combine(folder, "b")).Code);
        Assert.Empty(Directory.GetFileSystemEntries(folder));
    }

    private static (int Code, string Said) Backup(string store, string target)
    {
        using var said = new StringWriter();
        return (BackupCommand.Run([BackupCommand.Name, target], Configuration(store), said, said), said.ToString());
    }

    private static async Task<(int Code, string Said)> Restore(string store, string file)
    {
        using var said = new StringWriter();
        return (await RestoreCommand.Run([RestoreCommand.Name, file], Configuration(store), said, said), said.ToString());
    }

    private static IConfiguration Configuration(string folder) => new ConfigurationBuilder().AddInMemoryCollection([KeyValuePair.Create("Storage:Path", (string?)folder)]).Build();
}
