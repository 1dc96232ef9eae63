using Microsoft.Extensions.Configuration;
using Recommender.Api.Commands;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Commands;

public sealed class VerifyCommandTests : IDisposable
{
    private readonly ApiHost api = new();

    public void Dispose() => api.Dispose();

    [Fact]
    public async Task Says_that_a_chain_holds_and_where_it_does_not()
    {
        await api.Answer("/v1/recommendations", Examples.Minimal());
        await api.Answer("/v1/recommendations", Examples.Minimal());

        var (code, intact) = await Run(api.Folder);
        api.Sql("UPDATE decisions SET top = 'front-squat' WHERE sequence = 2");
        var (brokenCode, broken) = await Run(api.Folder);

        Assert.Equal(0, code);
        Assert.Matches("^local: intact, 2 records; head [0-9a-f]{64}\\.", intact);
        Assert.Equal(1, brokenCode);
        Assert.StartsWith("local: BROKEN at 2 (decision ", broken);
    }

    [Fact]
    public async Task A_folder_without_a_store_stays_without_one()
    {
        var folder = Directory.CreateTempSubdirectory("recommender-verify-");
        var (code, said) = await Run(folder.FullName);

        Assert.Equal(2, code);
        Assert.Contains("There is no store", said);
        Assert.Empty(folder.GetFileSystemInfos());
        folder.Delete();
    }

    private static async Task<(int Code, string Said)> Run(string folder)
    {
        using var said = new StringWriter();
        var configuration = new ConfigurationBuilder().AddInMemoryCollection([KeyValuePair.Create("Storage:Path", (string?)folder)]).Build();
        var code = await VerifyCommand.Run(configuration, said, said);
        return (code, said.ToString());
    }
}
