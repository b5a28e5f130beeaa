using System.Net;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

public sealed class TakenOutPageTests : IDisposable
{
    private const string Address = "/settings/taken-out";

    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public TakenOutPageTests() => pages = new PageClient(guild);

    [Fact]
    public async Task WhatWasTakenOut_IsListed_AndPutBackFromThePage()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var (classes, roster) = (guild.Get<ClassStore>(), guild.Get<RosterStore>());
        var student = roster.ForClass(classId)[0];
        await roster.Remove(classId, student.Id);
        Assert.Contains("Ada Lindqvist, Corner Star cushion", FormClient.Words(await pages.Get(Address)), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Redirect, (await PutBack("student", student.Id)).Status);
        Assert.Equal(2, roster.ForClass(classId).Count);

        await classes.Remove(classId);
        Assert.Equal(HttpStatusCode.NotFound, (await PutBack("block", classId)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await PutBack("class", classId)).Status);
        Assert.NotNull(classes.Find(classId));
        Assert.Contains("Corner Star cushion is back.", FormClient.Words(await pages.Get(Address)), StringComparison.Ordinal);
        Assert.Contains("Nothing is taken out", await pages.Get(Address), StringComparison.Ordinal);
    }

    private Task<(HttpStatusCode Status, string Text)> PutBack(string kind, long id) => pages.Post(Address, $"{Address}?handler=PutBack", ("kind", kind), ("id", $"{id}"));

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
